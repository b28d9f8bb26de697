package draw

import (
	"strconv"

	"build.example/turflast/schedule"
)

func itoa(n int) string { return strconv.Itoa(n) }

// trace draws the hand-over chain as a line from each of its steps to the
// next, where nothing else stands, within the lines [y, end).
func (w *window) trace(y, end int) {
	chain := w.g.Programme.Chain
	for i := 1; i < len(chain); i++ {
		a, aOK := w.stand(chain[i-1], y, end)
		b, bOK := w.stand(chain[i], y, end)
		if !aOK || !bOK || a == b {
			continue
		}
		x := w.item(chain[i].Activity).from - w.look.Pan
		for at := min(a, b) + 1; at < max(a, b); at++ {
			if w.blank(x, at) && at >= y && at < end {
				w.set(x, at, markTrace, Chain)
			}
		}
		if corner := [2]string{"┐", "┘"}; w.blank(x, a) && a >= y && a < end {
			w.set(x, a, corner[min(max(a-b, 0), 1)], Chain)
		}
	}
}

// stand returns the line that a step is drawn on; one that is scrolled away counts as
// just outside [y, end). ok is false if the step isn't on the sheet.
func (w *window) stand(s schedule.Step, y, end int) (at int, ok bool) {
	spot, ok := w.spots[s.Activity]
	if !ok {
		return 0, false
	}
	row := line{spot.lane, spot.row}
	if at, drawn := w.rows[row]; drawn {
		return at, true
	}
	for i, b := range w.body {
		if b == row && i < w.look.Top {
			return y - 1, true
		}
	}
	return end, true
}
