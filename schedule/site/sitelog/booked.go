package sitelog

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// booked adds what is agreed with others.
func (s *State) booked(e *Event) string {
	switch e.What {
	case Appointed:
		return s.appoint(e)
	case Away, Back:
		return s.machine(e)
	}
	s.Slots = append(s.Slots, *e)
	return ""
}

// Absence is a time in which all machines of a kind are broken, or haven't come.
type Absence struct {
	From, Until calendars.Instant // until when it is said to be, or was; Never while nobody knows
	Back        bool              // it is logged as back
	Why         string
}

// machine adds that a machine is away, or back.
func (s *State) machine(e *Event) string {
	all := s.Away[e.Machine]
	last := len(all) - 1
	switch {
	case e.What == Away && last >= 0 && !all[last].Back && all[last].Until > e.At:
		return e.Machine + " is away already; undo that first if it was wrong"
	case e.What == Away:
		a := Absence{From: e.At, Until: e.Until, Why: e.Text}
		if e.Until == 0 {
			a.Until = calendars.Never
		}
		s.Away[e.Machine] = append(all, a)
	case last < 0 || all[last].Back:
		return e.Machine + " isn't away at that time"
	default: // also when it was to be back sooner
		all[last].Until, all[last].Back = e.At, true
	}
	return ""
}

// appoint adds what is agreed of a task's sign-off.
func (s *State) appoint(e *Event) string {
	t := s.task(e.Task)
	if t.Signed != 0 {
		return e.Task + " is signed already; undo that first if it was wrong"
	}
	t.Appointed = append(t.Appointed, *e)
	return ""
}

// Appointments are those that stand of a task whose plan has some, or none, by what was agreed
// since; sorted.
func (t *Task) Appointments(planned []calendars.Instant) []calendars.Instant {
	out := slices.Clone(planned)
	for i := range t.Appointed {
		e := &t.Appointed[i]
		out = slices.DeleteFunc(out, func(at calendars.Instant) bool { return at == e.Was || at == e.To })
		if e.To != 0 {
			out = append(out, e.To)
		}
	}
	slices.Sort(out)
	return out
}

// unsigned says that an event of a hold point can't be of a task without one.
func (e *Event) unsigned(p *schedule.Plan) error {
	t := p.FindTask(e.Task)
	switch {
	case t == schedule.None:
		return nil
	case p.Tasks[t].Hold == nil:
		return fmt.Errorf("%s has no hold point to sign", e.Task)
	case e.What == Appointed && p.Tasks[t].Hold.OnTheClock:
		return fmt.Errorf("nobody comes for the hold point of %s: it runs on the clock once the work is finished", e.Task)
	}
	return nil
}

// always says that a machine which is there at any time can't get a slot.
func (e *Event) always(p *schedule.Plan) error {
	m := p.FindMachine(e.Machine)
	if e.What == SlotLost || m == schedule.None || len(p.Machines[m].Ours) > 0 {
		return nil
	}
	return fmt.Errorf("%s needs no slot: it is there at any time by the plan", e.Machine)
}

// taken checks that an appointment that isn't to be any more is one.
func (e *Event) taken(p *schedule.Plan, events []Event) error {
	t := p.FindTask(e.Task)
	if e.What != Appointed || t == schedule.None {
		return nil
	}
	now := Replay(events, e.At).task(e.Task).Appointments(p.Tasks[t].Hold.Appointments)
	if e.To != 0 && slices.Contains(now, e.To) && e.Was == 0 {
		return fmt.Errorf("%s has that appointment already", e.Task)
	}
	if e.Was == 0 || slices.Contains(now, e.Was) {
		return nil
	}
	return fmt.Errorf("%s has no appointment %s; %s", e.Task, clockOf(e.Was, p.Site.Location),
		theirs(now, p.Site.Location))
}

// theirs lists appointments, for a message.
func theirs(all []calendars.Instant, loc *time.Location) string {
	if len(all) == 0 {
		return "it has none"
	}
	var said []string
	for _, at := range all {
		said = append(said, clockOf(at, loc))
	}
	return "it has " + strings.Join(said, ", ")
}

func clockOf(at calendars.Instant, loc *time.Location) string {
	return at.In(loc).Format("Mon 2 Jan 15:04")
}
