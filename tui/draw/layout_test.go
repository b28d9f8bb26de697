package draw_test

import (
	"flag"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/gardentest"
)

var plans = flag.Int("plans", 200, "how many random plans the window is laid out for")

// layoutSizes are those that the window is laid out at.
var layoutSizes = []draw.Size{
	{Width: 60, Height: 15}, {Width: 64, Height: 18}, {Width: 80, Height: 24}, {Width: 100, Height: 30},
	{Width: 120, Height: 40}, {Width: 132, Height: 20}, {Width: 160, Height: 50}, {Width: 200, Height: 60},
	{Width: 90, Height: 100}, {Width: 300, Height: 80},
}

// cells returns the character in every column of a line; none in the second column of a
// wide one.
func cells(line string) (out []string) {
	for line != "" {
		cluster, w := ansi.FirstGraphemeCluster(line, ansi.GraphemeWidth)
		if w == 0 && len(out) > 0 {
			out[len(out)-1] += cluster
		}
		for i := range w {
			out = append(out, map[bool]string{true: cluster}[i == 0])
		}
		line = line[max(len(cluster), 1):]
	}
	return out
}

// frame is one while it is checked.
type frame struct {
	t     *testing.T
	name  string
	g     *draw.Garden
	sheet *draw.Sheet
	text  string
	cells [][]string
	all   []draw.Placement
	bands []draw.Band
}

// TestTheWindowsLayout lays random plans out at ten sizes: every name starts or ends on its
// own bar, nothing covers it, every figure is the programme's, every zone has a row or is
// counted, and every name that is missing is.
func TestTheWindowsLayout(t *testing.T) {
	for seed := range uint64(*plans) {
		g := gardentest.RandomGarden(t, seed)
		for _, s := range layoutSizes {
			f := &frame{t: t, name: fmt.Sprintf("plan %d at %d by %d", seed, s.Width, s.Height), g: g}
			f.sheet = draw.NewSheet(g, s, draw.Scale{})
			look := draw.Look{Chosen: schedule.Nothing}
			if seed%2 == 1 {
				look = f.sheet.Follow(draw.Look{Chosen: schedule.Activity(seed) % g.Plan.Activities()})
			}
			f.text = f.sheet.Draw(chrome(g, s, 0), look, draw.Theme{})
			checkFrame(t, f.name, f.text, s)
			for _, line := range strings.Split(f.text, "\n") {
				f.cells = append(f.cells, cells(line))
			}
			hidden := 0
			f.all, f.bands, hidden = f.sheet.Layout(look)
			for _, p := range f.all {
				f.checkLabel(p)
			}
			f.checkApart()
			f.checkZones(hidden)
			f.checkLetters()
			f.checkAt(look, chrome(g, s, 0))
			if t.Failed() {
				t.Fatalf("%s:\n%s", f.name, f.text)
			}
		}
	}
}

// shows says whether a text stands at a column of a line, where "!" may stand for a blank.
func (f *frame) shows(x, y int, text string) bool {
	for i, want := range cells(text) {
		got := ""
		if x+i < len(f.cells[y]) {
			got = f.cells[y][x+i]
		}
		if got != want && (want != " " || got != "!" && got != "") {
			return false
		}
	}
	return true
}

func (f *frame) checkLabel(p draw.Placement) {
	if p.Head == "" {
		return
	}
	wide := draw.Columns(p.Head)
	starts, ends := p.At == p.From, p.At+wide == p.To || p.End == p.To
	if p.Lorry {
		starts, ends = p.At == p.From+1, p.At+wide == p.From || p.End == p.From
	}
	line := f.sheet.LineX()
	straddles := p.From < line && p.To > line && (p.At+wide == line || p.End == line) // its bar crosses the line
	if !starts && !ends && !straddles {
		f.t.Errorf("%s: %q at %d to %d is not on its bar from %d to %d", f.name, p.Head, p.At, p.End, p.From, p.To)
	}
	if !f.shows(p.At, p.Line, p.Head) {
		f.t.Errorf("%s: %q isn't whole at column %d of line %d", f.name, p.Head, p.At, p.Line)
	}
	f.checkName(p)
	if p.Tail >= 0 {
		if p.Figure != "" && !f.shows(p.Tail, p.Line, p.Figure) {
			f.t.Errorf("%s: the figure %q of %q isn't at column %d of line %d", f.name, p.Figure, p.Head, p.Tail, p.Line)
		}
	} else if p.Figure != "" && !strings.HasSuffix(p.Head, "…") {
		f.t.Errorf("%s: %q has no figure", f.name, p.Head)
	}
	if want, sure := slipOf(f.g, p.Activity); sure && want != p.Figure {
		f.t.Errorf("%s: %q may slip %q, want %q", f.name, p.Head, p.Figure, want)
	}
}

// checkName checks that a name is one of its forms, or cut from one.
func (f *frame) checkName(p draw.Placement) {
	for _, form := range p.Names {
		if strings.HasSuffix(p.Head, form) {
			return
		}
	}
	cut, ok := strings.CutSuffix(p.Head, "…")
	if !ok || !strings.HasSuffix(cut, strings.TrimSuffix(p.Names[len(p.Names)-1], "…")[:1]) && !cutFrom(cut, p.Names) {
		f.t.Errorf("%s: %q isn't from the names %q", f.name, p.Head, p.Names)
	}
}

// checkApart checks that no two of a zone's tasks bear the same form of a name, if their
// whole names differ.
func (f *frame) checkApart() {
	seen := map[string]schedule.Activity{}
	for _, p := range f.all {
		if !slices.ContainsFunc(p.Names, func(form string) bool { return strings.HasSuffix(p.Head, form) }) {
			continue // cut once more
		}
		key := fmt.Sprint(p.Zone, p.Head)
		if other, known := seen[key]; p.Head != "" && known && f.g.Name(other) != f.g.Name(p.Activity) {
			f.t.Errorf("%s: %q and %q both are %q", f.name, f.g.Name(other), f.g.Name(p.Activity), p.Head)
		}
		seen[key] = p.Activity
	}
}

// cutFrom says whether a label ends with the beginning of one of its names.
func cutFrom(label string, names []string) bool {
	for i := range label {
		if slices.ContainsFunc(names, func(name string) bool { return strings.HasPrefix(name, label[i:]) }) {
			return true
		}
	}
	return false
}

// slipOf returns the figure that an activity bears; sure is false where another test has it.
func slipOf(g *draw.Garden, a schedule.Activity) (figure string, sure bool) {
	broken := slices.ContainsFunc(g.Programme.Breaks, func(b schedule.Break) bool { return b.Activity == a })
	if slices.ContainsFunc(g.Programme.Chain, func(s schedule.Step) bool { return s.Activity == a }) && !broken {
		return "", true
	}
	if d, lorry := g.Plan.Delivery(a); lorry {
		u := &g.Programme.Unloads[d]
		if g.Plan.Arrived(d) {
			return "", true
		}
		return shortly(calendars.Minutes(u.LateArrival - u.Arrives)), u.LateArrival.IsReal() && !broken
	}
	d := &g.Programme.Tasks[a]
	switch {
	case g.Plan.Progress != nil && g.Plan.Progress.Tasks[a].Finish != 0:
		return "", true
	case g.Programme.Scope == schedule.Logic || d.TotalFloat <= 0:
		return shortly(d.TotalFloat), true
	}
	return shortly(d.CrewFloat), true
}

func shortly(m calendars.Minutes) string {
	switch {
	case m == schedule.NoFloat:
		return "late"
	case m == schedule.FreeRange:
		return "any"
	case m < 0:
		return shortly(-m) + " late"
	case m < 60:
		return fmt.Sprint(int(m), "m")
	case m >= 600 || m%60 == 0:
		return fmt.Sprint(int(m/60), "h")
	}
	return fmt.Sprintf("%dh%02d", m/60, m%60)
}

// checkZones checks that every zone has a row or is counted, and that what has no name on
// its rows is counted beside it.
func (f *frame) checkZones(hidden int) {
	if len(f.bands)+hidden != f.sheet.Zones() {
		f.t.Errorf("%s: %d zones and %d counted of %d", f.name, len(f.bands), hidden, f.sheet.Zones())
	}
	if hidden > 0 && !strings.Contains(f.text, "zone") {
		f.t.Errorf("%s: zones without a row aren't counted", f.name)
	}
	for _, b := range f.bands {
		named := 0
		for _, p := range f.all {
			if p.Zone == b.Zone && p.Head != "" {
				named++
			}
		}
		if b.Told != "" && b.Rows == 1 {
			if beside := strings.Join(f.cells[b.Line], ""); !strings.Contains(beside, "task") {
				f.t.Errorf("%s: zone %d doesn't say what it holds: %s", f.name, b.Zone, beside)
			}
			continue
		}
		if got := named + b.Unnamed + b.Past + b.Below; got != b.Own || b.Rows < 1 {
			f.t.Errorf("%s: zone %d has %d rows, %d named, %d without a name, %d past and %d out of sight of %d",
				f.name, b.Zone, b.Rows, named, b.Unnamed, b.Past, b.Below, b.Own)
		}
		f.checkCounts(b)
	}
}

// checkCounts checks that what a zone lacks is said beside its rows.
func (f *frame) checkCounts(b draw.Band) {
	beside := ""
	for y := b.Line; y < b.Line+b.Rows && y < len(f.cells); y++ {
		beside += strings.Join(f.cells[y], "") + "\n"
	}
	if b.Unnamed > 0 && !strings.Contains(beside, fmt.Sprintf("+%d", b.Unnamed)) {
		f.t.Errorf("%s: zone %d doesn't say that %d have no name", f.name, b.Zone, b.Unnamed)
	}
	if b.Below > 0 && b.Rows > 1 && !strings.Contains(beside, " row") ||
		b.Below > 0 && b.Rows == 1 && !strings.Contains(beside, fmt.Sprintf("+%d", b.Below)) {
		f.t.Errorf("%s: zone %d doesn't say that rows are out of sight", f.name, b.Zone)
	}
}

// checkLetters checks that the letters of strip and bars agree.
func (f *frame) checkLetters() {
	at, of, without := f.sheet.Letters()
	for x, letter := range at {
		if !f.shows(x, f.sheet.StripLine(), letter) {
			f.t.Errorf("%s: %q isn't at column %d of the strip", f.name, letter, x)
		}
	}
	for _, p := range f.all {
		onChain := slices.ContainsFunc(f.g.Programme.Chain, func(s schedule.Step) bool { return s.Activity == p.Activity })
		if p.Head == "" {
			continue
		}
		first, _, _ := strings.Cut(p.Head, " ")
		if onChain && without == 0 && of[first] != p.Activity {
			f.t.Errorf("%s: %q bears another's letter", f.name, p.Head)
		}
	}
}

// checkAt checks that a click on a label's first cell is on its activity.
func (f *frame) checkAt(look draw.Look, c draw.Chrome) {
	for _, p := range f.all {
		if p.Head == "" || p.At < 0 {
			continue
		}
		if got := f.sheet.At(c, look, p.At, p.Line); got != p.Activity {
			f.t.Errorf("%s: a click on %q at %d, %d is on %d, want %d", f.name, p.Head, p.At, p.Line, got, p.Activity)
		}
	}
}
