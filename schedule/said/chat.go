package said

import (
	"errors"
	"regexp"
	"slices"
	"strings"

	"build.example/turflast/calendars"
)

// Message is a line of a crew's chat.
type Message struct {
	By    string            // whose it is; empty when the line doesn't say
	At    calendars.Instant // when it was written, or now when the line doesn't say
	Ticks []Tick
}

// stamp is when a line of a chat was written: in brackets, before a dash, or before who
// wrote it.
var stamp = regexp.MustCompile(`^\s*(?:\[\s*(STAMP)\s*\]|(STAMP)\s*[-–]\s|(STAMP)(\s+\pL[\pL .'-]{0,40}:\s))\s*`)

// speaker is who wrote a line.
var speaker = regexp.MustCompile(`^\s*(\pL[\pL\d .'-]{0,40}):\s+(.*)$`)

func init() {
	const moment = `(?:\d{1,4}[./-]\d{1,2}[./-]\d{1,4},?\s+)?\d{1,2}[:.]\d{2}(?::\d{2})?`
	stamp = regexp.MustCompile(strings.ReplaceAll(stamp.String(), "STAMP", moment))
}

// Message understands a line of a crew's chat, with when it was written and by whom where
// it says so. What it tells happened at or before that. The error is a *Doubt.
func (g *Garden) Message(line string) (Message, error) {
	m := Message{At: g.Now}
	if at := stamp.FindStringSubmatchIndex(line); at != nil {
		found := stamp.FindStringSubmatch(line)
		when, err := g.Happened(withoutSeconds(found[1] + found[2] + found[3]))
		if err != nil {
			return m, err
		}
		m.At, line = when, found[4]+line[at[1]:]
	}
	then := *g
	then.Now = m.At
	var err error
	m.Ticks, err = then.Ticks(line)
	var doubt *Doubt
	said := speaker.FindStringSubmatch(line)
	if said == nil || addsWork(said[1]) || !errors.As(err, &doubt) || len(doubt.Choices) > 0 {
		return m, err
	}
	if ticks, besides := then.Ticks(said[2]); besides == nil || doubt.Said != said[2] {
		m.By, m.Ticks, err = said[1], ticks, besides
	}
	return m, err
}

// addsWork says whether what stands before a colon begins added work, and is nobody's name.
func addsWork(text string) bool {
	return slices.Contains(strings.Split(classes["add"], "|"), strings.ToLower(text))
}

// withoutSeconds is a moment without its seconds, which a tick hasn't got.
func withoutSeconds(text string) string {
	if strings.Count(text, ":") == 2 {
		return text[:strings.LastIndex(text, ":")]
	}
	return text
}
