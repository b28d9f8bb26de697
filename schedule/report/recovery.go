package report

import (
	"bufio"
	"fmt"
	"io"

	"turflast/schedule/recovery"
)

// Recovery writes what it takes to bring every date back: the ways found, the
// cheapest first. The error is the writer's.
func (r *Report) Recovery(out io.Writer, found *recovery.Result) error {
	w := &page{out: bufio.NewWriter(out)}
	w.paragraph("", r.plan.Garden)
	w.paragraph("", r.words.Margin(r.prog))
	w.paragraph("", r.words.Verdict(r.prog))
	r.broken(w)
	if r.prog.Blocked == nil && len(r.prog.Breaks) == 0 {
		w.line("")
		w.paragraph("", "Every date is met: there is nothing to bring back.")
		return w.out.Flush()
	}
	w.heading("What brings every date back")
	for i := range found.Ways {
		r.way(w, i+1, &found.Ways[i])
	}
	if len(found.Ways) > 0 && found.Proven {
		w.line("")
		w.paragraph("", "Nothing cheaper does: that is proven.")
	}
	r.unrecovered(w, found)
	return w.out.Flush()
}

// unrecovered says what is still missing when nothing brings every date back.
func (r *Report) unrecovered(w *page, found *recovery.Result) {
	switch {
	case len(found.Ways) > 0:
	case len(r.plan.Measures) == 0:
		w.paragraph("", "The plan names no measures; list what could be bought under measures.")
	default:
		text := "No set of the plan's measures was found to."
		if found.Proven {
			text = "No set of the plan's measures does: that is proven."
		}
		w.paragraph("", text)
	}
	if found.Nearest == nil {
		return
	}
	near := New(found.Nearest.Plan, found.Nearest.Programme, r.hours)
	w.paragraph("", fmt.Sprintf("All of them together, for %s: %s", r.words.Money(found.Nearest.Cost), near.words.Margin(near.prog)))
	for _, b := range near.prog.Breaks {
		w.paragraph(breakMark, near.words.Break(b))
	}
}

func (r *Report) way(w *page, number int, x *recovery.Way) {
	w.line("")
	w.paragraph(fmt.Sprintf("%d. ", number), fmt.Sprintf("%s, %s start at another time.", r.words.Money(x.Cost), tasks(x.Moved)))
	for _, k := range x.Measures {
		m := &r.plan.Measures[k]
		text := fmt.Sprintf("%s, %s", r.words.Measure(m), r.words.Money(m.Cost))
		if m.Why != "" {
			text += " (" + m.Why + ")"
		}
		w.hanging(5, "   -", text)
	}
	after := New(x.Plan, x.Programme, r.hours)
	w.hanging(3, "", after.words.Margin(after.prog))
}

func tasks(n int) string {
	if n == 1 {
		return "1 task"
	}
	return fmt.Sprintf("%d tasks", n)
}

// wayObject is one way as JSON gives it.
type wayObject struct {
	Cost     float64  `json:"cost"`
	Measures []int    `json:"measures"`
	Words    []string `json:"words"`
	Moved    int      `json:"moved"`
	Finish   *moment  `json:"finish"`
	Breaks   int      `json:"breaks"`
}

// RecoveryJSON writes the same as one JSON object: garden, currency, met (of the
// plan without measures), proven (that nothing cheaper does, or nothing at all),
// ways, a list by cost of cost, measures (places in the plan's list, from 1),
// words, moved (tasks), finish and breaks (dates that break), and nearest, the
// same of all measures together, null when there is a way.
func (r *Report) RecoveryJSON(out io.Writer, found *recovery.Result) error {
	ways := []wayObject{}
	for i := range found.Ways {
		ways = append(ways, r.wayObject(&found.Ways[i]))
	}
	o := map[string]any{
		"format": "turflast.recovery", "version": 1, "garden": r.plan.Garden, "currency": r.plan.Currency,
		"met": r.prog.Blocked == nil && len(r.prog.Breaks) == 0, "proven": found.Proven, "ways": ways, "nearest": nil,
	}
	if found.Nearest != nil {
		o["nearest"] = r.wayObject(found.Nearest)
	}
	return writeJSON(out, o)
}

func (r *Report) wayObject(x *recovery.Way) wayObject {
	o := wayObject{
		Cost: float64(x.Cost) / 100, Measures: []int{}, Words: []string{}, Moved: x.Moved,
		Finish: r.moment(x.Programme.Finish), Breaks: len(x.Programme.Breaks),
	}
	for _, k := range x.Measures {
		o.Measures = append(o.Measures, k+1)
		o.Words = append(o.Words, r.words.Measure(&r.plan.Measures[k]))
	}
	return o
}
