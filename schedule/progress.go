package schedule

import "build.example/turflast/calendars"

// Progress is what has happened on site by a moment. A plan that has it is a
// plan as at that moment: what is done stays as it was, what is in hand has
// only its rest to do, and nothing else starts before the moment.
type Progress struct {
	At         calendars.Instant   // the moment; "now" to the programme
	Tasks      []TaskProgress      // by TaskID
	Deliveries []DeliveryProgress  // by DeliveryID
	Desk       []calendars.Instant // by DeskID: when it was settled; zero while it isn't
}

// TaskProgress is what has happened to one task.
type TaskProgress struct {
	Start  calendars.Instant // when it was started; zero when it wasn't
	Finish calendars.Instant // when its work was finished; zero when it isn't
	Left   Effort            // of a task in hand: what is left to do of it at the moment
	Paused bool              // in hand, and nobody at it at the moment
	Worked []calendars.Span  // the stretches worked before the moment, sorted
	Heads  []int             // by Task.Crew: those who have worked on it; nil when it wasn't started
	Teams  []Team            // those who were at it one after the other, first those planned; nil if nobody changed
	Signed calendars.Instant // when its hold point was signed; zero when it isn't
	By     string            // who signed it, if that is known
	Terms  string            // the id of the work on condition of which it was signed; empty for none
	Failed calendars.Instant // when its hold point last failed, if it wasn't signed after; else zero
	Wrong  string            // why it failed; empty when it didn't
	Before calendars.Instant // of a task to be put right: when its work was finished before that; else zero
	Ended  calendars.Instant // when it was cancelled though it had begun: it is finished as it was then; else zero
	Untold bool              // nobody has said how long putting it right takes: Left is nothing
}

// Team is who was at a task over a span of time, which is empty for who never was.
type Team struct {
	Crew  []CrewNeed
	Heads []int // by Crew
	Over  calendars.Span
}

// DeliveryProgress is what has happened to one delivery. Of one that has come,
// Delivery.Arrives is when it came; of one that hasn't, when it is now expected.
type DeliveryProgress struct {
	Arrived   bool
	Unseen    bool              // when it came isn't logged: it was unloaded, or loaded and gone, so it had come
	Refused   bool              // sent away at the gate, and not come again
	Settled   bool              // nothing to order: it came, was sent away or booked again, or its booking is over
	Ordered   calendars.Instant // when it was ordered; zero when that isn't logged
	Confirmed calendars.Instant // when its booking was last confirmed; zero when that isn't logged
	Start     calendars.Instant // when unloading began, as far as is known; zero when it hasn't
	Finish    calendars.Instant // when it was over; zero when it isn't
	Logged    bool              // Finish is logged, not taken from the plan
	Left      calendars.Minutes // of an unloading in hand: the time left at the moment
	Parts     []PartCome        // what came of the load before; all else here is of the rest
}

// PartCome is what came of a load of which something was missing or damaged.
type PartCome struct {
	Arrived calendars.Instant // or was unloaded by then, if Unseen
	Unseen  bool
	Over    calendars.Instant // when it was unloaded; zero when that isn't logged
	Keeps   calendars.Instant // until when living stock keeps of it; zero for other goods
	Short   string            // what is still to come
}

// Started says whether a task was started by the moment of the plan's progress.
func (p *Plan) Started(t TaskID) bool { return p.Progress != nil && p.Progress.Tasks[t].Start != 0 }

// Finished says whether a task's work was finished by then.
func (p *Plan) Finished(t TaskID) bool { return p.Progress != nil && p.Progress.Tasks[t].Finish != 0 }

// InHand says whether a task was started and not finished by then.
func (p *Plan) InHand(t TaskID) bool { return p.Started(t) && !p.Finished(t) }

// ToPutRight says whether a task's sign-off failed and putting it right isn't finished: it is
// in hand again.
func (p *Plan) ToPutRight(t TaskID) bool { return p.InHand(t) && p.Progress.Tasks[t].Failed != 0 }

// Rest is the work still to do of a task: all of it before it is started, none
// once it is finished.
func (p *Plan) Rest(t TaskID) Effort {
	switch {
	case p.Finished(t):
		return Effort{}
	case p.Started(t):
		return p.Progress.Tasks[t].Left
	}
	return p.Tasks[t].Effort
}

// Arrived says whether a lorry had come by the moment of the plan's progress.
func (p *Plan) Arrived(d DeliveryID) bool {
	return p.Progress != nil && p.Progress.Deliveries[d].Arrived
}

// Unloading says whether a delivery's unloading had begun by the moment of the
// plan's progress.
func (p *Plan) Unloading(d DeliveryID) bool {
	return p.Progress != nil && p.Progress.Deliveries[d].Start != 0
}

// Unloaded says whether a delivery's unloading was over by then.
func (p *Plan) Unloaded(d DeliveryID) bool {
	return p.Progress != nil && p.Progress.Deliveries[d].Finish != 0
}

// LoggedOver says whether the log has when a delivery was unloaded, or a collection loaded and
// gone, by then: of others it is taken from the plan.
func (p *Plan) LoggedOver(d DeliveryID) bool {
	return p.Progress != nil && p.Progress.Deliveries[d].Logged
}

// Now is the moment that the plan stands at: that of its progress, and
// [calendars.Past] without any.
func (p *Plan) Now() calendars.Instant {
	if p.Progress == nil {
		return calendars.Past
	}
	return p.Progress.At
}
