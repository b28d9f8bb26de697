package schedule

import "build.example/turflast/calendars"

// Scope says what a programme respects.
type Scope uint8

// The scopes of a programme and of its check.
const (
	Logic Scope = iota // time rules only, hands unlimited
	Crews              // time rules, and shared crews, machines, room and gate
)

// The floats that are no number of minutes.
const (
	NoFloat   calendars.Minutes = -1 << 30 // no start early enough exists in the hours that are open
	FreeRange calendars.Minutes = 1 << 30  // nothing limits it
)

// Programme is the dated result for one plan.
type Programme struct {
	Scope   Scope
	Tasks   []TaskDates   // by TaskID
	Unloads []UnloadDates // by DeliveryID

	Finish   calendars.Instant // the moment the last required activity is done
	Handover Margin
	Aim      Margin // zero when the plan has no aim
	Breaks   []Break
	Chain    []Step // the hand-over chain, from its first cause to the last finish

	// Blocked lists what has no place at all, in plan order, each with its cause or with
	// what it needs; nil when every task has dates. Finish and margins are those of the
	// rest.
	Blocked []Blocked

	// Bound is the proven earliest moment at which the last required activity can be
	// done, whatever the order of hands; zero in a logic programme.
	Bound calendars.Instant
	// BoundAsTold is the same as long as nothing is brought forward that a reference has
	// for the day of the plan's progress and the next day of the site; zero when it is no
	// later than Bound or nothing was told.
	BoundAsTold calendars.Instant
	// Proof says what the verifier recomputes of Bound; Unproven when it wasn't asked.
	Proof ProofKind
	// Overfull says what is over-full when that proves that the hand-over can't
	// be met, or else what makes the bound later than the links do; nil when
	// nothing does.
	Overfull *Overfull
	// Moves lists the starts that differ from a reference programme, by start;
	// empty without one.
	Moves []Move
	// Cut says what of all this an interrupt left out.
	Cut Cut
}

// Cut is what isn't in a programme because it was interrupted. What is in it holds.
type Cut struct {
	Search  bool // for a better one: it ended early
	Bound   bool // not all was tried to raise it
	Reasons bool // there are none, nor a chain
	Floats  bool // no crew float, [NoFloat] all, and no latest arrival, Never all, is worked out
}

// Any says whether anything was left out.
func (c Cut) Any() bool { return c != Cut{} }

// Overfull is something shared that certain work needs for longer than it is
// available between two moments, if the last required work is to be done by
// Until.
type Overfull struct {
	Crew    CrewID    // the crew, or None
	Machine MachineID // the machine, or None
	Zone    ZoneID    // the room of a zone, or None
	Gate    bool      // the gate's places
	Alone   TaskID    // time that a rule keeps for this task, or None
	Span    calendars.Span
	AtOnce  int               // people, machines or places needed throughout Span; 0 when only a sum of minutes shows it
	Have    int               // how many of them are there; less than AtOnce
	Needed  calendars.Minutes // person-minutes, machine-minutes, place-minutes; 0 when no sum of minutes shows it
	There   calendars.Minutes // what is available of it; less than Needed
	Until   calendars.Instant
	Work    []Activity // what can't lie outside Span, in plan order
	Spends  []Spend    // by Work, what each must spend in Span at the least

	BySearch bool // only the search that found it shows it: it couldn't be recomputed from the plan alone
}

// Spend is what an activity must spend of something in a window.
type Spend struct {
	Minutes calendars.Minutes // worked or, where pauses count, held
	Amount  int               // people, machines or places meanwhile
}

// ProofKind says what proves a bound.
type ProofKind uint8

// The kinds of proof, those that the verifier recomputes from the plan alone before
// the other.
const (
	Unproven ProofKind = iota // nothing is proven, or it wasn't asked
	ByChain                   // links, waits, hours and slots alone
	ByHands                   // what can't go on at once, or is over-full in a window
	BySearch                  // the search that found it, alone
)

// Move is a task's start that differs from the reference's.
type Move struct {
	Task     TaskID
	Was, Now calendars.Instant // either Never when the task is left out there
}

// Dates are an activity's dates, floats and reasons. Floats are working minutes
// on the activity's own calendar.
type Dates struct {
	Start, Finish         calendars.Instant // Never when it has no place
	LateStart             calendars.Instant // Never when nothing limits it, Past when no opening is early enough
	TotalFloat, FreeFloat calendars.Minutes
	CrewFloat             calendars.Minutes // never above TotalFloat; only in a crew programme, and as Cut says
	Why                   []Reason          // what fixes the start; the driver first
	OnChain               bool
}

// TaskDates are one task's dates.
type TaskDates struct {
	Dates
	Resumes    calendars.Instant // of a task in hand: when its rest goes on; else zero
	Done       calendars.Instant // work, cure and hold point
	Signed     calendars.Instant // hold point over; Finish when there is none
	LateFinish calendars.Instant // Never when nothing limits it, Past when no opening is early enough
	Heads      []int             // by Task.Crew: people at work on it
	Work       []calendars.Span  // the stretches worked, pauses left out
	Dropped    bool              // an optional task left out
}

// LeftOut is what a programme says of an optional task that it leaves out and that needs so many
// crews.
func LeftOut(crews int) TaskDates {
	return TaskDates{
		Dates: NoDates(), Done: calendars.Never, Signed: calendars.Never, LateFinish: calendars.Never,
		Heads: make([]int, crews), Dropped: true,
	}
}

// NoDates are those of what has none.
func NoDates() Dates {
	return Dates{Start: calendars.Never, Finish: calendars.Never, LateStart: calendars.Never}
}

// UnloadDates are one delivery's dates. LateStart holds for the lorry as
// booked.
type UnloadDates struct {
	Dates
	Arrives calendars.Instant
	Waiting calendars.Minutes // waiting time: how long the lorry stands beyond Delivery.Waits; none if sent away
	// LateArrival is the latest arrival at which every date that hangs on it holds;
	// Never when none does. In a crew programme hands are used in its order, and of a
	// date that is broken it is the latest that makes it no later.
	LateArrival calendars.Instant
}

// Margin is the site's working time between two moments, negative when late.
type Margin struct {
	Time  calendars.Minutes // site minutes; clock minutes when Clock
	Clock bool              // the lateness lies wholly in closed time
}

// BreakKind says which kind of date breaks.
type BreakKind uint8

// The kinds of date that may break, in the order of their weight.
const (
	BreakHandover BreakKind = iota // a required activity done after the hand-over
	BreakBy                        // a task's work finished after its own date
	BreakKeep                      // living stock kept too long before a task was done
	BreakSentAway                  // a lorry not begun in the opening of the gate in which it came
	BreakWithin                    // the longest wait of a link is over, and what it runs from has happened
)

// Break is one broken date.
type Break struct {
	Kind     BreakKind
	Activity Activity          // what is late
	Stock    DeliveryID        // of BreakKeep: what is kept too long; else None
	Limit    calendars.Instant // the date
	Actual   calendars.Instant // when it happens in the programme
}

// ReasonKind says what fixes a moment.
type ReasonKind uint8

// The kinds of reason.
const (
	ByOpening     ReasonKind = iota // the gate opens, or off-site work may begin
	ByNotBefore                     // the task's own earliest date
	ByGiven                         // a given
	ByLink                          // a link of the plan
	ByRule                          // a stage rule
	ByWayIn                         // the way in
	ByDelivery                      // the unloading of what it uses
	ByArrival                       // an unloading waits for its lorry
	ByWithin                        // the longest wait to what follows
	ByClosedHours                   // nobody is open or at work
	ByUnbroken                      // no stretch is long enough
	ByCrew                          // shared hands, room and slots: the crew programme
	ByMachine
	ByZone
	ByGate
	ByAlone  // time that a rule keeps for one: apart, clears, or a way in closed for a time
	ByNow    // nothing starts in the past: the moment of the plan's progress
	ByLog    // it happened then
	ByChoice // nothing: in a crew programme it could start then, everything else as it is
)

// Closed says whose hours hold a start back.
type Closed uint8

// Who may be closed.
const (
	ClosedNobody Closed = iota
	ClosedSite
	ClosedPlace // off site
	ClosedGate
	ClosedLoud
	ClosedCrew
	ClosedMachine
	ClosedWet      // work that must be dry, on a wet day or before it has dried
	ClosedWindy    // work that must be calm, on a windy day or in windy hours
	ClosedHarsh    // work that must be mild, in frost or heat
	ClosedStop     // it stands still
	ClosedTogether // each is open at times, never all at once before
)

// Reason is one thing that fixes a start or finish.
type Reason struct {
	Kind     ReasonKind
	Other    Activity          // the other activity, or Nothing; of ByArrival, the unloading itself
	Given    GivenID           // or None
	Rule     RuleID            // of ByRule, or None
	Zone     ZoneID            // of ByRule and ByWayIn, or None
	Crew     CrewID            // of ByClosedHours and ByCrew, or None
	Machine  MachineID         // of ByClosedHours and ByCrew, or None
	Closed   Closed            // of ByClosedHours
	Link     LinkKind          // of ByLink
	Wait     Wait              // the wait in force after Event
	Hold     bool              // the other task's hold point is what holds
	Finishes bool              // the finish is held, not the start
	Event    calendars.Instant // when the other thing happens
	Until    calendars.Instant // the moment that this allows
}

// After is the activity that a reason waits for: Nothing when it waits for a
// moment, as for the arrival of the lorry itself.
func (r *Reason) After() Activity {
	if r.Kind == ByArrival {
		return Nothing
	}
	return r.Other
}

// Step is one link of the hand-over chain: an activity, and what made it wait
// for the step before. The first step waits for a moment.
type Step struct {
	Activity Activity
	Reason   Reason
}

// Blocked is an activity for which a programme has no dates, and why.
type Blocked struct {
	Activity Activity          // what has no place
	Needs    Activity          // what it waits for, which has no place either; or Nothing
	Ring     []TaskID          // tasks whose waits can't all hold, it among them, in order of the ring; else empty
	Unfound  bool              // no programme was found that places it; nothing proves that there is none
	Reason   Reason            // why it has none, when none of these says so
	From     calendars.Instant // the moment from which no place was found
	Fits     calendars.Span    // of work in one stretch: the last before From that was long enough; empty for none
}

// HasNoPlace says whether a programme has no place for an activity.
func (g *Programme) HasNoPlace(a Activity) bool { return g.BlockOf(a) != nil }

// BlockOf says why an activity has no place; nil when it has one or is left out.
func (g *Programme) BlockOf(a Activity) *Blocked {
	for i := range g.Blocked {
		if g.Blocked[i].Activity == a {
			return &g.Blocked[i]
		}
	}
	return nil
}

// Tight says what leaves an activity no more room than its crew float: what happens if it
// slips a minute more while everyone keeps the order of hands.
type Tight struct {
	// Next is what it holds up of what the date depends on, by start: each starts later than
	// programmed. Empty when the date is its own.
	Next  []Follower
	Break Break // the first date that breaks then, or gets later
}

// Follower is an activity that another holds up.
type Follower struct {
	Activity Activity
	Reason   Reason // which names the one that holds it up
}
