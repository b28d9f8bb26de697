package draw

import (
	"fmt"

	"build.example/turflast/schedule"
)

// Shaded is a theme that draws the grounds of bars as numbers from 40 on, which tests
// replace by shades.
func Shaded() Theme {
	t := Theme{hued: true}
	for s := OnChain; s < styles; s++ {
		t.begin[s] = fmt.Sprintf("\x1b[%dm", 40+s-OnChain)
	}
	return t
}

// Placement is a label, or a ground alone, on a row of the window.
type Placement struct {
	Activity           schedule.Activity
	Zone, Line         int // the zone's place, the frame's line
	From, To           int // the bar's columns
	At, End, Tail      int // the label's, and its figure's first
	Head, Figure, More string
	Names              []string // the forms of its name
	Twin, Lorry        bool
}

// Band is the rows of a zone on a frame.
type Band struct {
	Zone, Line, Rows          int
	Unnamed, Past, Own, Below int // tasks: below are those on rows out of sight
	Told                      string
	Name                      string
}

// Layout lists what a frame without messages shows, and how many zones have no row on it.
func (sh *Sheet) Layout(look Look) (all []Placement, bands []Band, hidden int) {
	l := sh.layout(look.Chosen, sh.room())
	for b, y := range sh.bands(l, look, sh.body()) {
		z := &sh.zones[b.zone]
		out := Band{Zone: b.zone, Line: y, Rows: len(b.rows),
			Unnamed: b.unnamed, Past: z.past, Below: b.away, Told: b.told}
		for i := range z.items {
			if !z.items[i].twin {
				out.Own++
			}
		}
		bands = append(bands, out)
		for n, row := range b.rows {
			for _, p := range row {
				x := Placement{Activity: p.it.activity, Zone: b.zone, Line: y + n, From: p.it.from, To: p.it.to,
					At: p.at, End: p.labelEnd, Tail: p.tail, Names: p.it.label.names[:], Twin: p.it.twin, Lorry: p.it.lorry}
				if p.name != "" {
					x.Head, x.Figure, x.More = p.it.label.lead+p.name, p.it.label.tail, p.it.label.more
				}
				all = append(all, x)
			}
		}
	}
	return all, bands, l.above + l.below
}

// Zones returns how many zones have something to show, the gate among them.
func (sh *Sheet) Zones() int { return len(sh.zones) }

// Letters returns the letters on the strip, by their columns, with their activities, and how
// many links have none.
func (sh *Sheet) Letters() (at map[int]string, of map[string]schedule.Activity, without int) {
	at, of = map[int]string{}, map[string]schedule.Activity{}
	for _, l := range sh.links {
		if l.at < 0 {
			without++
			continue
		}
		at[l.at], of[l.letter] = l.letter, l.activity
	}
	return at, of, without
}

// LineX returns the column of the hand-over line.
func (sh *Sheet) LineX() int { return sh.rule.at }

// StripLine returns the strip's line.
func (sh *Sheet) StripLine() int { return windowHead + sh.rule.rows(sh.scale) }
