package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/slip"
)

// InHand is the margin to the hand-over in a few words: "5 h 20 in hand", "2 h late".
func (w *Writer) InHand(g *schedule.Programme) string {
	m := g.Handover
	switch {
	case g.Finish == calendars.Never:
		return "never done"
	case m.Time < 0 && m.Clock:
		return clock(-m.Time) + " late, by the clock"
	case m.Time < 0:
		return work(-m.Time) + " late"
	case m.Time == 0:
		return "nothing in hand"
	}
	return work(m.Time) + " in hand"
}

// MarginMoved says what a tick did to the margin, of which both are as [Writer.InHand] has
// them: "28 m in hand before, 1 h 05 now."
func MarginMoved(before, now string) string {
	if before == now {
		return "Still " + now + "."
	}
	for _, alike := range []string{" in hand", " late"} {
		if short, is := strings.CutSuffix(now, alike); is && strings.HasSuffix(before, alike) {
			now = short
		}
	}
	return Capital(before) + " before, " + now + " now."
}

// BreaksNow says that a date breaks which held before a tick, and why: s is the end of the
// trace of what is later than before it, or nil.
func (w *Writer) BreaksNow(b schedule.Break, s *slip.Step) string {
	return "Breaks now: " + w.Break(b) + w.tickedWhy(s, "later")
}

// HoldsNow says that a date holds again which broke before a tick, and why: s is the end of
// the trace of what was later before it, or nil.
func (w *Writer) HoldsNow(b schedule.Break, s *slip.Step) string {
	return w.HoldsAgain(b) + w.tickedWhy(s, "sooner")
}

func (w *Writer) tickedWhy(s *slip.Step, how string) string {
	switch {
	case s == nil || s.Added && how == "sooner":
		return ""
	case s.Added:
		return fmt.Sprintf(" Why: %s is to be done now.", w.named(s.Activity))
	}
	by := lateness(s.By, s.OnClock)
	if w.isLorry(s.Activity) {
		by = clock(s.By)
	}
	return fmt.Sprintf(" Why: %s is %s %s than before.", w.named(s.Activity), by, how)
}

// MarginInterrupted says that an interrupt came before it was clear what a tick does.
const MarginInterrupted = "Interrupted: what is logged stays; what it does to the margin isn't worked out."
