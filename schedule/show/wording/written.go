package wording

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// Rewritten is a stretch of a plan's text that reads otherwise now: whole lines, none where
// something is new or gone.
type Rewritten struct {
	Line     int // the first, as it is now
	Was, Now []string
}

// mostOfLine is how much of a line is shown, in characters.
const mostOfLine = 100

// Says says what was written, line by line. A line is taken for another one that begins alike.
func (r Rewritten) Says() []string {
	var out []string
	at := 0 // of the lines now
	for _, was := range r.Was {
		like := slices.IndexFunc(r.Now[at:], func(now string) bool { return begins(now) == begins(was) })
		if like < 0 {
			out = append(out, fmt.Sprintf("gone after line %d: %s", r.Line+at-1, part(was)))
			continue
		}
		out = append(out, r.fresh(at, at+like)...)
		at += like
		old, now := differing(was, r.Now[at])
		out = append(out, fmt.Sprintf("line %d: %s is now %s", r.Line+at, quotedPart(old), quotedPart(now)))
		at++
	}
	return append(out, r.fresh(at, len(r.Now))...)
}

// fresh says which lines are new.
func (r Rewritten) fresh(from, to int) []string {
	var out []string
	for i := from; i < to; i++ {
		out = append(out, fmt.Sprintf("line %d is new: %s", r.Line+i, part(r.Now[i])))
	}
	return out
}

// begins is a line up to the first colon: its key.
func begins(line string) string {
	key, _, _ := strings.Cut(strings.TrimSpace(line), ":")
	if strings.HasPrefix(key, "- ") {
		return "-"
	}
	return key
}

// differing are the parts in which two lines differ, from the entry in which they begin to differ to
// the end of the one in which they end.
func differing(was, now string) (string, string) {
	a, b := []rune(strings.TrimSpace(was)), []rune(strings.TrimSpace(now))
	from := 0
	for from < min(len(a), len(b)) && a[from] == b[from] {
		from++
	}
	for from > 0 && !strings.ContainsRune(",{[", a[from-1]) {
		from--
	}
	end := 0
	for end < min(len(a), len(b))-from && a[len(a)-1-end] == b[len(b)-1-end] {
		end++
	}
	for end > 0 && !strings.ContainsRune(",}]", a[len(a)-end]) {
		end--
	}
	return strings.TrimSpace(string(a[from : len(a)-end])), strings.TrimSpace(string(b[from : len(b)-end]))
}

func quotedPart(s string) string {
	if s == "" {
		return "nothing"
	}
	return `"` + part(s) + `"`
}

// part is text cut where it is long.
func part(s string) string {
	s = strings.TrimSpace(s)
	if utf8.RuneCountInString(s) <= mostOfLine {
		return s
	}
	return string([]rune(s)[:mostOfLine-1]) + "…"
}

// Wrote says in one sentence what was written into a plan's file.
func Wrote(file string, all []Rewritten) string {
	lines := 0
	for _, r := range all {
		lines += max(len(r.Was), len(r.Now))
	}
	if len(all) == 0 {
		return fmt.Sprintf("Nothing was written: %s says so already.", file)
	}
	text := fmt.Sprintf("Wrote %s, %s", file, all[0].Says()[0])
	if lines > 1 {
		text += fmt.Sprintf("; %s in all", Count(lines, "line", "lines"))
	}
	return text + "."
}

// AskWrite asks whether a change, and so many more, are to be written into a plan's file.
func AskWrite(file, change string, more int) string {
	text := "Write into " + file + ": " + change
	if more > 0 {
		text += "; and " + Count(more, "change", "changes") + " more"
	}
	return text + "? enter writes, esc doesn't"
}

// AskBack asks whether what was written into a plan's file is to be taken back.
func AskBack(file string) string {
	return "Take back what was written into " + file + "? enter does, esc doesn't"
}

// TookBack says that a plan's file is as it was before it was written.
func TookBack(file string) string { return file + " reads as it did before." }

// What is said where a plan can't be written.
const (
	NothingToWrite   = "Nothing to write: no change is in force."
	NothingToWriteTo = "This plan has no file: \"turflast new\" or \"turflast demo\" makes one."
	// NoEditor says how to name an editor.
	NoEditor = "no editor is named: set VISUAL or EDITOR, like \"export EDITOR=nano\", and open the plan again"
	// NoFileToWrite takes the name of the plan.
	NoFileToWrite = "%s has no file to write to; \"turflast new\" or \"turflast demo\" makes one"
	// WrittenMeanwhile takes the name of the file.
	WrittenMeanwhile = "%s has changed since it was read, and nothing was written over it: look at it and try again"
	// AlreadyBegun takes the name of a task.
	AlreadyBegun = "%s is begun: what is left of it isn't in the plan; log it, like \"turflast log left\""
)
