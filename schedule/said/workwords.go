package said

import (
	"slices"
	"strconv"
	"strings"

	"build.example/turflast/calendars"
)

// teamRules are the ways to say who started a task, where it isn't as planned.
func teamRules() []rule[Tick] {
	return []rule[Tick]{
		{[]string{"<task> /begun/ <when>? /with/ <team>", "/begun/ <task> <when>? /with/ <team>",
			"<team> /begun/ <task> <when>?"}, simply(Started)},
	}
}

// rights are the ways to say how long putting something right takes and by whom: those that
// are clear wherever they stand behind a reason, and those that are behind a sign.
var rights, rightsApart grammar[Tick]

func init() {
	clearly := []string{"/needs/? <work> to /fix/", "/needs/? <work> to /fix/ /with/ <team>", "<work> for <team> to /fix/",
		"/needs/? <work> for <team>", "/needs/? <work> /with/ <team>", "to? be? /fix/ /with/ <team>",
		"/fix/ takes <work>", "to? be? /fix/ /with/ <team> in <work>"}
	apart := []string{"/needs/? <work>", "takes <work>", "<team> <work>", "<work> <team>", "/with/ <team>",
		"<team> to /fix/"}
	rights = compile([]rule[Tick]{{clearly, toPutRight}})
	rightsApart = compile([]rule[Tick]{{append(apart, clearly...), toPutRight}})
}

func toPutRight(_ *Garden, f found) []meaning[Tick] {
	t := f.tick(Failed)
	t.Takes = f.length.minutes
	return as(f, t)
}

// failedWith is a failed sign-off or check: why, and how long putting it right takes and by
// whom, if the end of the reason says so.
func failedWith(g *Garden, f found) []meaning[Tick] {
	t := f.tick(Failed)
	right, text, doubt := g.right(f.text)
	f.free -= len(words(f.text)) - len(words(text)) // that much of it is read
	if t.Takes, t.Crew, t.Heads, t.Text = right.Takes, right.Crew, right.Heads, text; text == "" {
		t.Text = noReason
	}
	if doubt != "" {
		f = f.doubting(doubt)
	}
	return as(f, t)
}

// noReason stands for a reason that nobody said.
const noReason = "no reason said"

// right takes how long putting something right takes, and by whom, off the end of a reason.
func (g *Garden) right(text string) (t Tick, reason, doubt string) {
	s := g.saying(text)
	for i := range s.words {
		gr, before := rights, strings.TrimRight(text[:s.words[i].from], " ,;:-.")
		if i == 0 || slices.Contains([]string{",", ";", ":", "-", "."}, s.at(i-1)) {
			gr = rightsApart
		}
		all := gr.whole(g.saying(text[s.words[i].from:]))
		if len(all) == 0 {
			continue
		}
		m := all[0]
		if k := slices.IndexFunc(all, func(m meaning[Tick]) bool { return m.doubt == "" }); k >= 0 {
			m = all[k]
		}
		return m.list[0], before, m.doubt
	}
	return t, text, ""
}

// PutRight understands why something failed, with how long putting it right takes and by
// whom where that is said: the Text, Takes, Crew and Heads of a tick. The error is a *Doubt.
func (g *Garden) PutRight(text string) (Tick, error) {
	t, reason, doubt := g.right(text)
	if t.What, t.Text = Failed, reason; doubt != "" {
		return t, &Doubt{Said: text, Why: doubt}
	}
	if t.Text == "" {
		t.Text = noReason
	}
	return t, nil
}

// readTeam reads a crew, and how many of it: "2 masons", "masons 2", "masons".
func (s *saying) readTeam(i int, f found) []step {
	n, from := max(whole(s.at(i)), 0), i
	if n > 0 {
		from++
		for slices.Contains([]string{"of", "the"}, s.at(from)) {
			from++
		}
	}
	var out []step
	for _, st := range s.readThing(crews, from, found{}) {
		next := f
		if next.crew, next.heads = st.things[0].id, n; st.doubt != "" {
			next = next.doubting(st.doubt)
		}
		out = append(out, step{next, st.to})
		if behind := whole(s.at(st.to)); n == 0 && behind > 0 && !s.measures(st.to) {
			next.heads = behind
			out = append(out, step{next, st.to + 1})
		}
	}
	return out
}

// team is the normal form of who is at it.
func (t *Tick) team() string {
	if t.Heads == 0 {
		return t.Crew
	}
	return t.Crew + " " + strconv.Itoa(t.Heads)
}

// right is the normal form of how long putting something right takes, and by whom.
func (t *Tick) right() string {
	said := "to be put right"
	if t.Takes != 0 {
		said = calendars.FormatWait(t.Takes) + " to put right"
	}
	if t.Crew != "" {
		said += " by " + t.team()
	}
	return said
}
