package draw

import (
	"strings"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/use"
)

// The marks of heads: at work, there and not used, missing.
const (
	markUsed    = "●"
	markSpare   = "·"
	markMissing = "○"
)

// Hands is the view of people and machines laid out for one size: each crew and machine
// with its heads by half day under the ruler of the window.
type Hands struct {
	g     *Garden
	size  Size
	rule  *ruler
	table *use.Table
}

// NewHands lays the people and machines out.
func NewHands(g *Garden, s Size) *Hands {
	return &Hands{g: g, size: s, rule: newRuler(g, s.Width, Scale{NoYard: true}), table: use.Of(g.Case)}
}

// Len is how many crews and machines there are.
func (h *Hands) Len() int { return len(h.table.Crews) + len(h.table.Machines) }

// Crew returns the crew of a row, None for a machine.
func (h *Hands) Crew(row int) schedule.CrewID {
	if row < 0 || row >= len(h.table.Crews) {
		return schedule.None
	}
	return schedule.CrewID(row)
}

// of returns the counts of a row, and a sentence on them.
func (h *Hands) of(row int) (counts []use.Count, said string) {
	if c := h.Crew(row); c != schedule.None {
		return h.table.Crews[c], h.g.Words.CrewUse(c, h.table.Crews[c])
	}
	m := schedule.MachineID(row - len(h.table.Crews))
	return h.table.Machines[m], h.g.Words.MachineUse(m, h.table.Machines[m])
}

// name is what a row's crew or machine is called.
func (h *Hands) name(row int) string {
	if c := h.Crew(row); c != schedule.None {
		return h.g.crewName(c)
	}
	return Clean(h.g.Plan.Machines[row-len(h.table.Crews)].Name)
}

// Sentence tells a row in running text.
func (h *Hands) Sentence(row int) string {
	counts, said := h.of(row)
	for i := range counts {
		if clash := h.g.Words.Clash(&counts[i]); clash != "" {
			said += "; " + clash
		}
	}
	return Clean(said) + "."
}

// about tells a chosen row: what is used in all, and each clash.
func (h *Hands) about(row int) []page.Text {
	counts, said := h.of(row)
	d := &page.Document{}
	d.Say(Clean(said))
	for i := range counts {
		d.In(page.Late, Clean(h.g.Words.Clash(&counts[i])))
	}
	return Lines(d, min(storyWidth, max(min(h.rule.at, h.size.Width-2)-5, leastStory)), page.Rows)
}

// rows is how many lines a row takes.
func (h *Hands) rows(row int, chosen bool) int {
	if chosen {
		return 2 + len(h.about(row))
	}
	return 2
}

// top is the first line of the rows.
func (h *Hands) top() int { return headRows + h.rule.rows(Scale{}) + orderRows }

// Follow returns the first row to draw so that a row is in sight with the words about it,
// moving no farther than needed from top.
func (h *Hands) Follow(row, top int) int {
	return h.follow(row, top, h.size.Height-h.top()-footRows)
}

func (h *Hands) follow(row, top, room int) int {
	top = min(top, row)
	need := h.rows(row, true)
	for i := row - 1; i >= top; i-- {
		if need += 2; need > room {
			return i + 1
		}
	}
	return max(top, 0)
}

// At returns the row at a line of the screen, -1 where there is none.
func (h *Hands) At(c Chrome, chosen, top, y int) int {
	at, foot := h.top(), h.size.Height-c.footRows()
	for i := h.follow(chosen, top, foot-at); i < h.Len() && at < foot; i++ {
		next := at + h.rows(i, i == chosen)
		if y >= at && y < min(next, foot) {
			return i
		}
		at = next
	}
	return -1
}

// Draw draws a frame: the crews, then the machines, from row top on.
func (h *Hands) Draw(c Chrome, chosen, top int, th Theme) string {
	if small, ok := tooSmall(h.size); ok {
		return small
	}
	cv := newCanvas(h.size)
	lineX := min(h.rule.at, h.size.Width-2)
	c.top(cv, h.g, h.rule, lineX, 0)
	w := &window{Sheet: &Sheet{g: h.g, size: h.size, rule: h.rule}, canvas: cv, lineX: lineX, head: headRows}
	w.ruler(headRows)
	y, foot := h.top(), h.size.Height-c.footRows()
	top = h.follow(chosen, top, foot-y)
	for i := top; i < h.Len() && y < foot; i++ {
		h.row(cv, y, i, i == chosen, foot)
		y += h.rows(i, i == chosen)
	}
	head := markUsed + " at work  " + markSpare + " there, not used  " + markMissing + " missing"
	if h.Len() == 0 {
		head = "The plan has no crews and no machines."
	}
	if c.Keys != "" {
		head += "   " + c.Keys
	}
	cv.put(1, h.top()-1, Cut(head, lineX-2), Quiet)
	w.behind(h.top(), h.top(), foot)
	c.foot(cv)
	return cv.render(th)
}

// row draws one crew or machine from line y on.
func (h *Hands) row(cv *canvas, y, row int, chosen bool, foot int) {
	counts, _ := h.of(row)
	name := Strong
	if chosen {
		name = Chosen
		cv.set(0, y, markChosen, Strong)
	}
	x := cv.put(2, y, Cut(h.name(row), h.size.Width/2), name)
	if missing := h.missing(counts); missing != "" {
		cv.put(x+2, y, Cut(missing, h.size.Width-x-5), Warm)
	}
	if y+1 < foot {
		for i := range counts {
			h.half(cv, y+1, h.table.Halves[i], &counts[i])
		}
	}
	if chosen {
		for i, l := range h.about(row) {
			if y+2+i < foot {
				cv.line(4, y+2+i, l, h.size.Width-6)
			}
		}
	}
}

// missing names the work that clashes where most are missing; empty where none are.
func (h *Hands) missing(counts []use.Count) string {
	worst := -1
	for i := range counts {
		if counts[i].Short > 0 && (worst < 0 || counts[i].Short > counts[worst].Short) {
			worst = i
		}
	}
	if worst < 0 {
		return ""
	}
	var names []string
	for _, a := range counts[worst].Clash.Work {
		names = append(names, h.g.Name(a))
	}
	return "! " + itoa(counts[worst].Short) + " missing: " + strings.Join(names, ", ")
}

// half draws the heads of a half day in its columns: who is missing first, one by one
// where there is room, else as figures, and who is spare only where there is room.
func (h *Hands) half(cv *canvas, y int, half use.Half, c *use.Count) {
	from, to := h.rule.column(half.Span.Start), h.rule.end(half.Span.End)
	if c.There+c.Peak == 0 || to <= from || half.Span.End <= h.rule.opens {
		return
	}
	used, spare, missing := c.Peak, max(c.There-c.Peak, 0), 0
	if c.Short > 0 {
		used, spare, missing = c.Clash.There, 0, c.Short
	}
	x, room := from, max(to-from-1, 1) // a column stays free before the next half day
	for _, part := range []struct {
		mark string
		n    int
		st   Style
	}{{markMissing, missing, Warm}, {markUsed, used, Work}, {markSpare, spare, Quiet}} {
		text := strings.Repeat(part.mark, part.n)
		if used+spare+missing > room && part.n > 1 {
			text = part.mark + itoa(part.n)
		}
		if x-from+Columns(text) <= room {
			x = cv.put(x, y, text, part.st)
		}
	}
}
