package edit_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/planfile/edit"
)

// layout writes a plan as one of many people would: in lines or brackets, one line or several,
// with comments and blank lines anywhere, in quotes of either kind.
type layout struct {
	*rand.Rand
	b        strings.Builder
	comments int
	step     int // of the indentation
}

func laidOut(r *rand.Rand, text string) string {
	var doc yaml.Node
	if err := yaml.Unmarshal([]byte(text), &doc); err != nil {
		panic(err)
	}
	l := &layout{Rand: r, step: 1 + r.IntN(4)}
	if r.IntN(4) == 0 {
		l.b.WriteString("---\n")
	}
	l.blockMap(doc.Content[0], 0, false)
	out := strings.TrimSuffix(l.b.String(), "\n")
	if r.IntN(2) == 0 {
		out += "\n"
	}
	if r.IntN(3) == 0 {
		out = strings.ReplaceAll(out, "\n", "\r\n")
	}
	if r.IntN(5) == 0 {
		out = "\uFEFF" + out
	}
	return out
}

func (l *layout) chance(of int) bool { return l.IntN(of) == 0 }

func (l *layout) comment() string {
	l.comments++
	return fmt.Sprintf("# note %d: {not, a: list] \"nor text'", l.comments)
}

// endLine ends a line, with a comment on it or below it now and then.
func (l *layout) endLine(indent int) {
	if l.chance(6) {
		l.b.WriteString(strings.Repeat(" ", 1+l.IntN(3)) + l.comment())
	}
	l.b.WriteByte('\n')
	switch l.IntN(12) {
	case 0:
		l.b.WriteByte('\n')
	case 1:
		l.b.WriteString(strings.Repeat(" ", indent) + l.comment() + "\n")
	}
}

func (l *layout) pad(indent int) { l.b.WriteString(strings.Repeat(" ", indent)) }

// blockMap writes a mapping in lines; inline says that the first key stands behind a dash.
func (l *layout) blockMap(n *yaml.Node, indent int, inline bool) {
	for i := 0; i < len(n.Content); i += 2 {
		if !inline || i > 0 {
			l.pad(indent)
		}
		l.b.WriteString(n.Content[i].Value + ":")
		l.value(n.Content[i+1], indent)
	}
}

// value writes what stands behind a key or dash, to the end of its line.
func (l *layout) value(v *yaml.Node, indent int) {
	switch {
	case v.Kind == yaml.ScalarNode && strings.Contains(v.Value, " ") && v.Style != 0 && l.chance(4):
		l.b.WriteString(" >\n")
		l.pad(indent + l.step)
		l.b.WriteString(v.Value + "\n")
	case v.Kind == yaml.ScalarNode || l.chance(2):
		l.b.WriteByte(' ')
		l.flow(v, indent+l.step, l.chance(4))
		l.endLine(indent)
	case v.Kind == yaml.MappingNode:
		l.endLine(indent)
		l.blockMap(v, indent+l.step, false)
	default:
		l.endLine(indent)
		l.blockList(v, indent+l.IntN(2)*l.step)
	}
}

func (l *layout) blockList(v *yaml.Node, indent int) {
	for _, item := range v.Content {
		l.pad(indent)
		l.b.WriteString("- ")
		if item.Kind == yaml.MappingNode && l.chance(2) {
			l.blockMap(item, indent+2, true)
			continue
		}
		l.flow(item, indent+4, false)
		l.endLine(indent)
	}
}

// flow writes a value in brackets or as text; stacked puts each entry on a line of its own.
func (l *layout) flow(v *yaml.Node, indent int, stacked bool) {
	step, marks := 1, "[]"
	switch v.Kind {
	case yaml.ScalarNode:
		l.scalar(v)
		return
	case yaml.MappingNode:
		step, marks = 2, "{}"
	}
	l.b.WriteByte(marks[0])
	comma := []string{", ", ",", ",  "}[l.IntN(3)]
	for i := 0; i < len(v.Content); i += step {
		if stacked && (i > 0 || l.chance(2)) {
			l.endFlowLine(indent)
		}
		if step == 2 {
			l.b.WriteString(v.Content[i].Value + ": ")
		}
		l.flow(v.Content[i+step-1], indent+1, false)
		switch last := i+step == len(v.Content); {
		case !last && stacked:
			l.b.WriteByte(',')
		case !last:
			l.b.WriteString(comma)
		case stacked && l.chance(2):
			if l.chance(2) {
				l.b.WriteByte(',')
			}
			l.endFlowLine(indent)
		}
	}
	l.b.WriteByte(marks[1])
}

func (l *layout) endFlowLine(indent int) {
	if l.chance(4) {
		l.b.WriteString("  " + l.comment())
	}
	l.b.WriteByte('\n')
	l.pad(indent)
}

// scalar writes text as it has to be: what was in quotes is text for people.
func (l *layout) scalar(v *yaml.Node) {
	switch {
	case v.Style == 0:
		l.b.WriteString(v.Value)
	case l.chance(2):
		l.b.WriteString(`"` + v.Value + `"`)
	default:
		l.b.WriteString("'" + v.Value + "'")
	}
}

// randomChange is a change of the garden as a what-if file says it, whether a plan can say it, and
// whether the plan before can be written back over it.
func randomChange(r *rand.Rand) (text string, says, back bool) {
	day := func() string { return fmt.Sprintf("2027-05-%02d", 11+r.IntN(9)) }
	hour := func(from int) string { return fmt.Sprintf("%02d:%02d", from+r.IntN(3), 15*r.IntN(4)) }
	pick := func(s string) string {
		all := strings.Fields(s)
		return strings.NewReplacer("#", " ", ",", ", ").Replace(all[r.IntN(len(all))])
	}
	any := func() string { return pick("dig base pave point lay sweep") }
	switch r.IntN(30) {
	case 21:
		return fmt.Sprintf("%s needs %s %d", any(), pick("masons ground"), 1+r.IntN(4)), true, false
	case 22:
		return fmt.Sprintf("%s needs digger 1", pick("base pave sweep")), true, true
	case 23:
		return pick("dig pave point") + " without " + pick("digger flags masons"), true, false
	case 24:
		return pick("dig sweep lay") + " in " + pick("rear lawn rear#and#lawn"), true, false
	case 25:
		return fmt.Sprintf("%s cures %dh", any(), r.IntN(9)), true, true
	case 26:
		return `rename ` + pick("dig base flags turf") + ` to "New: 'name'"`, true, false
	case 27:
		return "link " + pick("base point pave") + " after " + pick("dig base") +
			pick(",start-start,lag#2h ,within#3d ,cure#4h ,lead#1h,within#2d"), true, false
	case 28:
		return "measure " + pick("masons#1#more#on#2027-05-18 flags#1d#earlier drop#pave "+
			"site#open#2027-05-19#to#20:00 digger#ours#2027-05-12#07:00#to#12:00 link#pave#after#base,lead#1h") +
			", cost 40", true, true
	case 29:
		return "sweep uses " + pick("flags turf"), true, true
	case 18:
		return "link " + pick("dig point lay") + " after " + pick("power dig"), true, true
	case 19:
		return "task rake in lawn, soil, ground 2, 1h, after " + pick("dig base") + ", uses flags", true, true
	case 20:
		return "lorry grit on " + day() + " 09:00, unload 30m, for " + any(), true, true
	case 0:
		return "flags on " + day() + " " + hour(8), true, true
	case 1:
		return "turf on " + day() + " " + hour(8), true, false
	case 2:
		return fmt.Sprintf("power %dh %s", 1+r.IntN(9), pick("later earlier")), true, true
	case 3:
		return fmt.Sprintf("%s %dm longer", pick("dig pave point sweep"), 15*(1+r.IntN(12))), true, true
	case 4:
		return fmt.Sprintf("%s 15m shorter", any()), true, false
	case 5:
		return "drop " + any(), true, false
	case 6:
		return fmt.Sprintf("%s %d more on %s", pick("masons ground"), 1+r.IntN(4), day()), true, true
	case 7:
		return fmt.Sprintf("%s 1 fewer on %s", pick("masons ground"), day()), true, true
	case 8:
		return fmt.Sprintf("%s work %s to %s", pick("masons ground"), day(), hour(18)), true, true
	case 9:
		return fmt.Sprintf("%s away on %s", pick("masons ground"), day()), true, false
	case 10:
		return fmt.Sprintf("digger ours %s %s to %s", day(), hour(8), hour(12)), true, true
	case 11:
		return "point appointment " + day() + " " + hour(8), true, true
	case 12:
		return fmt.Sprintf("%s open %s %s to %s", pick("site gate"), day(), hour(5), hour(18)), true, false
	case 13:
		return fmt.Sprintf("%s closed %s %s to %s", pick("site gate"), day(), hour(9), hour(13)), true, false
	case 14:
		return "site closure on 2027-05-13 1h later", true, true
	case 15:
		return fmt.Sprintf("flags %dh earlier", 1+r.IntN(3)), true, true
	case 16:
		return fmt.Sprintf("flags %dh later", 1+r.IntN(3)), false, false
	}
	return pick("wet windy") + " on " + day(), false, false
}

// facts are what a plan says, without places and wordings, for every number of heads.
func facts(t testing.TB, p *schedule.Plan) string {
	t.Helper()
	q := *p
	q.Tasks = slices.Clone(p.Tasks)
	var times strings.Builder
	for i := range q.Tasks {
		e := &q.Tasks[i].Effort
		least, most := 0, 0
		for _, c := range q.Tasks[i].Crew {
			least, most = least+c.Least, most+c.Most
		}
		for heads := least; heads <= most; heads++ {
			fmt.Fprintf(&times, "%s with %d: %d\n", q.Tasks[i].ID, heads, e.Time(heads))
		}
		*e = schedule.Effort{}
	}
	data, err := json.Marshal(q)
	if err != nil {
		t.Fatal(err)
	}
	data = regexp.MustCompile(`"Pos":\{[^}]*\}|"Why":"[^"]*"`).ReplaceAll(data, nil)
	return times.String() + string(bytes.ReplaceAll(data, []byte("[]"), []byte("null")))
}

var notes = regexp.MustCompile(`# note \d+:`)

// TestAnyLayout writes random changes into a plan in random layouts. What is written reads as the
// plan with the changes; every line that doesn't say what changes stays byte by byte, and so does
// every comment but those on lines that are taken out; written back, the text is what it was.
func TestAnyLayout(t *testing.T) {
	for seed := range uint64(150) {
		r := rand.New(rand.NewPCG(seed, 1))
		text := laidOut(r, garden)
		p := read(t, text)
		var changes []string
		says, back := true, true
		for range 1 + r.IntN(2) {
			c, a, b := randomChange(r)
			changes, says, back = append(changes, c), says && a, back && b
		}
		want, err := changed(p, changes...)
		if err != nil {
			continue // the plan refuses it
		}
		says = says || sayable(want)
		out, err := edit.Write([]byte(text), want)
		switch {
		case !says && err == nil:
			t.Errorf("seed %d: %q was written", seed, changes)
		case says && err != nil && !strings.Contains(err.Error(), "would have a fault"):
			t.Errorf("seed %d: %q: %v\n%s", seed, changes, err, text)
		}
		if err != nil {
			continue
		}
		if facts(t, read(t, string(out))) != facts(t, want) {
			t.Errorf("seed %d: %q reads otherwise\n%s", seed, changes, diff(text, string(out)))
		}
		for _, wrong := range touched(changes, text, string(out)) {
			t.Errorf("seed %d: %q: %s\n%s", seed, changes, wrong, diff(text, string(out)))
		}
		if again, err := edit.Write(out, p); back && (err != nil || string(again) != text) {
			t.Errorf("seed %d: %q written back: %v\n%s\n%s", seed, changes, err,
				diff(text, string(out)), diff(text, string(again)))
		}
	}
}

// sayable says whether the last of several changes left a plan that its text can say.
func sayable(p *schedule.Plan) bool {
	late := func(d schedule.Delivery) bool { return d.Booked != 0 }
	return p.Site.WetOn == nil && p.Site.WindyOn == nil && !slices.ContainsFunc(p.Deliveries, late)
}

// touched says what changes did to a text that they may not do.
func touched(changes []string, text, out string) (wrong []string) {
	var gone, come []string
	for _, line := range strings.Split(strings.TrimSuffix(diff(text, out), "\n"), "\n") {
		if strings.HasPrefix(line, "-") {
			gone = append(gone, line)
		} else {
			come = append(come, line)
		}
	}
	before, after := notes.FindAllString(text, -1), notes.FindAllString(out, -1)
	taken := notes.FindAllString(strings.Join(gone, "\n"), -1)
	left := slices.DeleteFunc(slices.Clone(before), func(n string) bool {
		return slices.Contains(taken, n) && !slices.Contains(after, n)
	})
	if !slices.Equal(left, after) {
		wrong = append(wrong, "comments were lost or moved")
	}
	removes := slices.ContainsFunc(changes, func(c string) bool {
		return strings.HasPrefix(c, "drop") || strings.Contains(c, "without") || strings.Contains(c, "cures 0") ||
			strings.HasPrefix(c, "turf on") || strings.HasPrefix(c, "lay") ||
			strings.HasPrefix(c, "site open") // its measure may go
	})
	said := strings.Join(changes, " ")
	if n := len(changes); !removes && !strings.Contains(said, "unload") && !strings.Contains(said, "task") &&
		(len(before) != len(after) || len(gone) > 4*n || len(come) > 5*n) {
		wrong = append(wrong, fmt.Sprintf("%d lines went and %d came", len(gone), len(come)))
	}
	if strings.Contains(text, "\r\n") && strings.Count(out, "\n") != strings.Count(out, "\r\n") {
		wrong = append(wrong, "line breaks of two kinds")
	}
	if strings.HasSuffix(text, "\n") != strings.HasSuffix(out, "\n") ||
		strings.HasPrefix(text, "\uFEFF") != strings.HasPrefix(out, "\uFEFF") {
		wrong = append(wrong, "the end or the beginning of the file changed")
	}
	return wrong
}

// FuzzWrite edits whatever text reads as a plan: what is written reads as the plan wanted, or
// nothing is written. No text makes it panic.
func FuzzWrite(f *testing.F) {
	for seed := range uint64(3) {
		f.Add(laidOut(rand.New(rand.NewPCG(seed, 2)), garden), "dig 1h longer")
	}
	f.Add(garden, "drop base")
	f.Add(garden, "pave needs masons 2..3 and digger 1")
	f.Add(garden, "dig without digger")
	f.Add(garden, "sweep in rear and lawn")
	f.Add(garden, "link pave after base, lead 1h, within 2d")
	f.Add(garden, "measure masons 1 more on 2027-05-17 and 2027-05-18, cost 380")
	f.Add(garden, `rename dig to "Dig: the base"`)
	f.Add(garden, "site open 2027-05-14 to 20:00")
	f.Fuzz(func(t *testing.T, text, change string) {
		p, _ := planfile.Read(strings.NewReader(text))
		if p == nil {
			return
		}
		want, err := changed(p, change)
		if err != nil {
			return
		}
		out, err := edit.Write([]byte(text), want)
		if err != nil {
			return
		}
		if got, problems := planfile.Read(bytes.NewReader(out)); got == nil {
			t.Errorf("%q made a plan with faults: %v", change, problems)
		} else if facts(t, got) != facts(t, want) {
			t.Errorf("%q reads otherwise\n%s", change, diff(text, string(out)))
		}
	})
}
