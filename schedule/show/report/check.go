package report

import (
	"io"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/shape"
)

// checkObject is what [CheckJSON] writes.
type checkObject struct {
	Format   string        `json:"format" const:"turflast.check"`
	Version  int           `json:"version" const:"1"`
	File     string        `json:"file" doc:"as it was named"`
	Reads    bool          `json:"reads" doc:"the plan can be used: there are warnings at most"`
	Garden   string        `json:"garden,omitempty" doc:"its name, of a plan that reads"`
	Holds    *planCounts   `json:"holds,omitempty" doc:"how much is in a plan that reads"`
	Problems []planProblem `json:"problems" doc:"faults and warnings, by place"`
}

// planCounts is how much a plan holds.
type planCounts struct {
	Tasks      int `json:"tasks" doc:"all of them"`
	Zones      int `json:"zones" doc:"places off site included"`
	Crews      int `json:"crews" doc:"all of them"`
	Machines   int `json:"machines" doc:"kinds of machine"`
	Deliveries int `json:"deliveries" doc:"collections included"`
}

// planProblem is a problem of a plan.
type planProblem struct {
	Warning bool   `json:"warning" doc:"the plan can be used all the same"`
	Line    int    `json:"line,omitempty" doc:"in the file, from 1; none for what has no place"`
	Column  int    `json:"column,omitempty" doc:"in the line, in characters from 1"`
	Text    string `json:"text" doc:"what is wrong"`
	Hint    string `json:"hint,omitempty" doc:"what to do"`
}

// CheckJSON writes what is wrong with the plan of a file, which is nil when it can't be
// used. The error is the writer's.
func CheckJSON(out io.Writer, file string, p *schedule.Plan, problems schedule.Problems) error {
	o := checkObject{File: file, Reads: p != nil}
	if p != nil {
		o.Garden = p.Garden
		o.Holds = &planCounts{len(p.Tasks), len(p.Zones), len(p.Crews), len(p.Machines), len(p.Deliveries)}
	}
	o.Problems = each(problems, func(q schedule.Problem) planProblem {
		return planProblem{q.Warning, q.Pos.Line, q.Pos.Column, q.Text, q.Hint}
	})
	return kinds.Write(out, p, o)
}

// checkShape documents it.
var checkShape = shape.Shape{About: "What is wrong with a plan (check --json):", Value: checkObject{}}
