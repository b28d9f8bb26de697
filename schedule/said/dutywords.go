package said

import "strings"

// dutyRules are the ways to say that a daily duty was done.
func dutyRules() []rule[Tick] {
	return []rule[Tick]{
		{[]string{"<duty> /done/? <when>?", "<duty> /done/? <ondate>", "/done/ <duty> <when>?", "/done/ <duty> <ondate>",
			"duty <duty> <when>?", "duty <duty> <ondate>",
			"<duty> /done/? by <who>", "<duty> /done/? by <who> <when>", "<duty> /done/? by <who> <ondate>",
			"<duty> /done/? <when> by <who>", "<duty> /done/? <ondate> by <who>", "duty <duty> by <who>",
			"duty <duty> <when> by <who>", "duty <duty> <ondate> by <who>"}, dutyDone},
		{[]string{"<duty> /undone/ <ondate>?", "no <duty> <ondate>?", "nobody did <duty> <ondate>?",
			"/undone/ <duty> <ondate>?"}, unsaid[Tick]("what isn't done isn't logged: it is asked for the next morning")},
	}
}

func init() {
	classes["undone"] = "not done|isn't done|wasn't done|undone|missed|forgotten|still to do|not yet done|not yet|skipped"
}

// dutyDone is a daily duty that was done: on the date that is said, or that of the time, or today.
func dutyDone(g *Garden, f found) []meaning[Tick] {
	f, on := g.about(f)
	t := f.tick(DutyDone)
	if t.Date = on; len(f.dates) == 0 && t.At != nil {
		t.Date = t.At.Date
	}
	return as(f, t)
}

// onDate is the date of a duty in its normal form, if no time says it.
func (t *Tick) onDate() string {
	if t.At != nil && t.At.Date == t.Date {
		return ""
	}
	return "on " + t.Date.String()
}

// readDuty reads a daily duty by its name, or by what was done: "watering", "watered".
func (s *saying) readDuty(i int, f found) []step {
	out := list(duties)(s, i, f)
	if root, ed := strings.CutSuffix(s.at(i), "ed"); ed && len(root) > 2 {
		for _, m := range s.g.find(root+"ing", duties) {
			out = append(out, step{f.with(m), i + 1})
		}
	}
	return out
}
