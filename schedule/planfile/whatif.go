package planfile

import (
	"fmt"
	"io"
	"regexp"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
)

// ReadWhatIf reads a what-if file: the keys format, name, note and changes, a list of
// changes as [ParseChange] reads them. It is as strict as [Read]; the set is
// nil when a problem is fatal.
func ReadWhatIf(r io.Reader) (*schedule.WhatIf, schedule.Problems) {
	data, problems := readAll(r, "one file holds one what-if")
	if problems != nil {
		return nil, problems
	}
	rd := newReader("what-if")
	set := &schedule.WhatIf{}
	if root := rd.parse(data); root != nil && rd.readable(root, "what-if") {
		rd.sweep(root, 1)
		rd.readWhatIf(root, set)
	}
	if problems = rd.result(); problems.Fatal() {
		return nil, problems
	}
	return set, problems
}

func (r *reader) readWhatIf(root *yaml.Node, set *schedule.WhatIf) {
	top, ok := r.item(root, "the what-if", keys.WhatIf)
	if !ok {
		return
	}
	if !r.src.cut {
		top.required()
	}
	top.format()
	set.Name = r.words(top.get("name"), maxName, label{"name", ""})
	set.Note = r.words(top.get("note"), maxText, label{"note", ""})
	list := r.filled(top.get("changes"), "write at least one, like stone 2d later", label{"changes", ""})
	for _, n := range list {
		text := r.words(n, maxText, label{"an entry", "changes"})
		if text == "" {
			continue
		}
		c, err := ParseChange(text)
		if f := schedule.AsChangeFault(err); f != nil {
			r.fault(r.inside(n, f.Column), f.Hint, "%s", "change "+quote(text)+": "+f.Text)
			continue
		}
		c.Pos = r.inside(n, 1)
		set.Changes = append(set.Changes, c)
	}
}

// inside is the place of a column of a value's text when the value stands in
// the file just as it is read, and otherwise the place of the value.
func (r *reader) inside(n *yaml.Node, column int) schedule.Pos {
	at := posOf(n)
	rest, ok := r.src.from(at)
	if n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0 && rest != "" {
		rest, at.Column = rest[1:], at.Column+1
	}
	if ok && strings.HasPrefix(rest, n.Value) && n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) == 0 {
		at.Column += min(column-1, utf8.RuneCountInString(n.Value))
		return at
	}
	return posOf(n)
}

// WriteWhatIf writes a what-if file that [ReadWhatIf] reads as the same set. The
// error is the writer's.
func WriteWhatIf(w io.Writer, set *schedule.WhatIf) error {
	var b strings.Builder
	fmt.Fprintf(&b, "# A what-if for turflast: \"turflast whatif --with FILE\" tries it.\nformat: %d\nname: %s\n", Format,
		scalar(set.Name))
	if set.Note != "" {
		fmt.Fprintf(&b, "note: %s\n", scalar(set.Note))
	}
	b.WriteString("changes:\n")
	for _, c := range set.Changes {
		fmt.Fprintf(&b, "  - %s\n", scalar(c.String()))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// plainText needs no quotes in YAML.
var plainText = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9 .:'()/+-]*$`)

// scalar writes text as a value that YAML reads as the same text.
func scalar(s string) string {
	switch strings.ToLower(s) {
	case "null", "true", "false", "yes", "no", "on", "off", "y", "n":
		return `"` + s + `"`
	}
	if plainText.MatchString(s) && !strings.Contains(s, ": ") && !strings.HasSuffix(s, ":") && !strings.HasSuffix(s, " ") {
		return s
	}
	return "'" + strings.ReplaceAll(s, "'", "''") + "'"
}
