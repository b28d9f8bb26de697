package draw

import (
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/slip"
)

// SlipLines tell how far a programme is from what was agreed in a baseline: the
// hand-over first, why it and every broken date is late, then what slipped, the
// worst first.
func SlipLines(w *wording.Writer, g *schedule.Programme, s *slip.Slip, number, width int) []page.Text {
	l := &slipPage{words: w, g: g, s: s, width: max(min(width-4, storyWidth), 20)}
	st := page.Strong
	if s.Now > s.Was {
		st = page.Late
	}
	l.add(st, "", w.Slipped(s, g, number))
	l.causes()
	l.late()
	return l.lines
}

// slipPage is the page in the making.
type slipPage struct {
	words *wording.Writer
	g     *schedule.Programme
	s     *slip.Slip
	width int
	lines []page.Text
}

// add writes a sentence, with a mark before its first line.
func (l *slipPage) add(st page.Role, mark, text string) {
	l.lines = append(l.lines, Told(st, mark, "  "[:len(mark)], text, l.width-len(mark))...)
}

func (l *slipPage) head(text string) { l.lines = append(l.lines, nil, page.As(page.Strong, text)) }

// causes tell what made the hand-over slip, and each date that breaks: what was told
// already isn't told again.
func (l *slipPage) causes() {
	told := map[schedule.Activity]bool{}
	for i := range l.s.Traces {
		t := &l.s.Traces[i]
		if t.Break == nil {
			l.head("WHY THE HAND-OVER SLIPS")
		} else {
			l.lines = append(l.lines, nil)
			l.add(page.Late, markBreak+" ", l.words.Break(*t.Break))
		}
		for k, text := range l.words.Traced(t, l.g) {
			step := t.Steps[k].Activity
			if told[step] {
				l.add(page.Plain, "", "The rest is told above.")
				break
			}
			told[step] = true
			l.add(page.Plain, "", text)
		}
	}
}

// late lists what slipped.
func (l *slipPage) late() {
	s := l.s
	if len(s.Tasks)+len(s.Lorries) > 0 {
		l.head("WHAT SLIPPED, WORST FIRST")
	}
	for i := range s.Lorries {
		l.add(page.Plain, "", l.words.LorrySlip(&s.Lorries[i], l.g))
	}
	for i := range s.Tasks {
		l.add(page.Plain, "", l.words.TaskSlip(&s.Tasks[i], l.g))
	}
	for _, t := range s.Never {
		l.add(page.Late, markBreak+" ", l.words.Task(t)+" has no place any more.")
	}
	if s.Sooner > 0 {
		l.lines = append(l.lines, nil)
		l.add(page.Plain, "", soonerWords(s.Sooner))
	}
}

func soonerWords(n int) string {
	if n == 1 {
		return "One task finishes sooner than agreed."
	}
	return itoa(n) + " tasks finish sooner than agreed."
}
