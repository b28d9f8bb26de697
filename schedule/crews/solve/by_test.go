package solve_test

import (
	"strings"
	"testing"

	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/planfile"
)

// A date of its own is for the work and not for the sign-off, in what is proven too.
func TestADateOfWorkWithAHoldPoint(t *testing.T) {
	for _, c := range []struct {
		name, by string
		unmeets  bool
	}{
		{"the work can't be finished by then", "11:59", true},
		{"the work is, and is signed the day after", "12:00", false},
	} {
		text := `garden: Signed
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-05 16:00
  hours: {mon-fri: 08:00-16:00}
zones: {lawn: {name: Lawn}}
crews: {ground: {name: Ground crew, people: 1}}
tasks:
  wire: {name: Wire, zone: lawn, stage: first-fix, crew: {ground: 1}, takes: 4h, by: 2027-05-03 ` + c.by +
			`, hold_point: {what: an inspector signs, by_appointment: [2027-05-04 10:00]}}
  close: {name: Close, zone: lawn, stage: finishes, crew: {ground: 1}, takes: 2h, after: [wire]}
`
		p, problems := planfile.Read(strings.NewReader(text))
		if problems.Fatal() {
			t.Fatal(problems)
		}
		s, err := solve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Unmeetable(t.Context(), solve.Promise{}); got != c.unmeets {
			t.Errorf("%s: proven that it can't: %v", c.name, got)
		}
	}
}
