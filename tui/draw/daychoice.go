package draw

import (
	"slices"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
)

// Choose returns the look some shifts further down (by above 0) or up. It scrolls instead
// if there is nothing to choose, past the last shift, and on the way back from there.
func (g *Garden) Choose(look DayLook, by int, s Size) DayLook {
	step := 1
	if by < 0 {
		step = -1
	}
	for ; by != 0; by -= step {
		was := look
		if look = g.step(look, step, s); look == was {
			break
		}
	}
	return look
}

// step is Choose by one shift or line.
func (g *Garden) step(look DayLook, by int, s Size) DayLook {
	shifts := g.choices(look)
	look.Chosen = min(look.Chosen, shifts)
	lowest, last := g.topFor(look, s), g.LastTop(look, s)
	switch {
	case by > 0 && look.Chosen < shifts:
		look.Chosen++
	case by > 0:
		look.Top = min(look.Top+1, last)
		return look
	case look.Top > lowest || look.Chosen == 0:
		look.Top = max(look.Top-1, 0)
		return look
	case look.Chosen > 1:
		look.Chosen--
	}
	look.Top = min(max(look.Top, g.topFor(look, s)), max(look.Chosen-1, 0))
	return look
}

// Numbered is an activity with its short number.
type Numbered struct {
	Activity schedule.Activity
	Number   int
}

// Number returns the short number of an activity, which is the same on every sheet.
func (g *Garden) Number(a schedule.Activity) int { return g.Numbers.Of(a) }

// choices returns how many shifts can be chosen: those of one crew; none in the list of
// everyone.
func (g *Garden) choices(look DayLook) int {
	if look.Crew == Everyone {
		return 0
	}
	return len(g.Shifts(look))
}

// topFor returns the least top that shows the chosen shift whole, or its beginning if it
// is higher than a frame.
func (g *Garden) topFor(look DayLook, s Size) int {
	if look.Chosen == 0 {
		return 0
	}
	return topIn(g.dayText(look, s.Width), look, s.Height-dayRows-footRows)
}

// topIn is topFor for paragraphs already laid out and a frame with room lines for them.
func topIn(ps []paragraph, look DayLook, room int) int {
	top := look.Chosen - 1
	if top < 0 || top >= len(ps) {
		return 0
	}
	for room -= ps[top].height(); top > 0 && room >= ps[top-1].height()+gap(ps, top-1); top-- {
		room -= ps[top-1].height() + gap(ps, top-1)
	}
	return top
}

// Chosen returns the chosen shift; ok is false without one.
func (g *Garden) Chosen(look DayLook) (s Shift, ok bool) {
	if look.Crew == Everyone || look.Chosen == 0 {
		return Shift{}, false
	}
	shifts := g.Shifts(look)
	if look.Chosen > len(shifts) {
		return Shift{}, false
	}
	return shifts[look.Chosen-1], true
}

// ChooseActivity returns the look with the shift of an activity chosen or, if it has
// none on that day, the first shift that isn't ticked off.
func (g *Garden) ChooseActivity(look DayLook, t schedule.Activity, s Size) DayLook {
	look.Chosen = 0
	if n := g.choices(look); n > 0 {
		shifts := g.Shifts(look)
		at := slices.IndexFunc(shifts, func(s Shift) bool { return s.Activity == t })
		if at < 0 {
			at = slices.IndexFunc(shifts, func(s Shift) bool { return g.State(s.Activity) != sheets.Ticked })
		}
		look.Chosen = max(at, 0) + 1
	}
	look.Top = g.topFor(look, s)
	return look
}
