package schedule

import (
	"cmp"
	"fmt"
	"slices"
)

// Problem is one fault of a plan file, or a warning about it.
type Problem struct {
	Pos     Pos    // zero when the whole file is meant
	Text    string // what is wrong, with the offending text
	Hint    string // what to do; may be empty
	Warning bool   // the plan can be used all the same
}

// String is the problem as one line, without the file: "3:5: text; hint".
func (p Problem) String() string {
	s := p.Text
	if p.Hint != "" {
		s += "; " + p.Hint
	}
	if p.Warning {
		s = "warning: " + s
	}
	return fmt.Sprintf("%d:%d: %s", max(p.Pos.Line, 1), max(p.Pos.Column, 1), s)
}

// Problems is what is wrong with a plan file, by place.
type Problems []Problem

// Sort orders the problems by place, errors before warnings at the same one.
func (ps Problems) Sort() {
	slices.SortStableFunc(ps, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Pos.Line, b.Pos.Line), cmp.Compare(a.Pos.Column, b.Pos.Column),
			cmp.Compare(rank(a), rank(b)))
	})
}

func rank(p Problem) int {
	if p.Warning {
		return 1
	}
	return 0
}

// Fatal says whether any problem is more than a warning.
func (ps Problems) Fatal() bool {
	return slices.ContainsFunc(ps, func(p Problem) bool { return !p.Warning })
}

// Faults are the problems that are more than warnings, in the same order.
func (ps Problems) Faults() Problems {
	var out Problems
	for _, p := range ps {
		if !p.Warning {
			out = append(out, p)
		}
	}
	return out
}
