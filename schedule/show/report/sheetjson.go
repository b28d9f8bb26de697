package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/safety"
	"build.example/turflast/schedule/show/shape"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
)

// The sheets as JSON objects.
type (
	runSheet struct {
		Format  string `json:"format" const:"turflast.run-sheet"`
		Version int    `json:"version" const:"1"`
		sheetObject
		day
		Beyond *beyondLine `json:"beyond_the_line,omitempty" doc:"what of a late programme lies after the hand-over"`
		Mends  *mends      `json:"mends,omitempty" doc:"what would mend the dates that break, if it was asked"`
	}
	lookAhead struct {
		Format  string `json:"format" const:"turflast.look-ahead"`
		Version int    `json:"version" const:"1"`
		sheetObject
		Days []day      `json:"days" doc:"a run sheet each"`
		Desk []deskLine `json:"desk,omitempty" doc:"of the lead's copy: what is to be settled by then, by date"`
	}
	gateList struct {
		Format  string `json:"format" const:"turflast.gate-list"`
		Version int    `json:"version" const:"1"`
		sheetObject
		Gate []pass `json:"gate" doc:"what comes and goes through the gate"`
	}
	appointments struct {
		Format  string `json:"format" const:"turflast.appointments"`
		Version int    `json:"version" const:"1"`
		sheetObject
		Appointments []appointment `json:"appointments" doc:"sign-offs"`
		Givens       []promise     `json:"givens" doc:"what others owe"`
	}
	handoverList struct {
		Format  string `json:"format" const:"turflast.hand-over-list"`
		Version int    `json:"version" const:"1"`
		sheetObject
		At         calendars.Instant `json:"at" doc:"the moment it is of"`
		Ready      bool              `json:"ready" doc:"the garden can be handed over"`
		Words      string            `json:"verdict" doc:"the same in words"`
		Unfinished []schedule.TaskID `json:"unfinished" doc:"with work to do"`
		Unsigned   []appointment     `json:"unsigned" doc:"sign-offs that are missing"`
		Signed     []appointment     `json:"signed,omitempty" doc:"sign-offs that are there"`
		Curing     []schedule.TaskID `json:"curing" doc:"that still cure"`
		Lorries    []pass            `json:"lorries" doc:"still to come or go"`
		Snags      []snag            `json:"snags" doc:"still open"`
		Optional   []schedule.TaskID `json:"optional_unfinished" doc:"that may be left out"`
		Dropped    []schedule.TaskID `json:"optional_left_out" doc:"that are left out"`
		Spare      []pass            `json:"optional_lorries" doc:"still to come or go, for optional work alone"`
	}
)

// sheetObject holds the keys that all sheets have after format and version.
type sheetObject struct {
	Garden   string            `json:"garden" doc:"its name"`
	Timezone string            `json:"timezone" doc:"tz database name"`
	AsAt     calendars.Instant `json:"as_at,omitempty" doc:"up to which the site log tells; none without a log"`
	Sentence string            `json:"sentence" doc:"the margin in words"`
	Breaks   []string          `json:"breaks,omitempty" doc:"dates that break, a sentence each"`
	Issued   string            `json:"issued,omitempty" doc:"which issue it is, or that it is none, in words"`
	Said     string            `json:"note,omitempty" doc:"such as that today is no day of the build"`
}

type day struct {
	On           calendars.Date    `json:"on" doc:"its date"`
	Crew         schedule.CrewID   `json:"crew,omitempty" doc:"whose sheet it is; none for everyone"`
	Open         []calendars.Span  `json:"open" doc:"when the crew is at work, or the site open"`
	Heads        *int              `json:"heads,omitempty" doc:"the most of the crew at a time"`
	Free         []free            `json:"free,omitempty" doc:"who of the crews has nothing to do"`
	Asked        []string          `json:"questions,omitempty" doc:"what should have been ticked off by now"`
	Accidents    []accident        `json:"accidents,omitempty" doc:"and near misses still open; the lead's copy"`
	Failed       []failedSignOff   `json:"failed_sign_offs,omitempty" doc:"work that failed its sign-off or another check"`
	Terms        []condition       `json:"conditions,omitempty" doc:"on which something was signed, not done yet"`
	Gone         []cancelledTask   `json:"cancelled,omitempty" doc:"on the day or the one before"`
	Begun        []begunWork       `json:"begun,omitempty" doc:"not ticked as finished, and without a line"`
	Lines        []line            `json:"lines" doc:"the work of the day"`
	Duties       []duty            `json:"duties,omitempty" doc:"who has them when"`
	Gate         []pass            `json:"gate,omitempty" doc:"what comes and goes through the gate"`
	Appointments []appointment     `json:"appointments,omitempty" doc:"sign-offs of the day"`
	Weather      []weatherLogged   `json:"weather_logged,omitempty" doc:"in which some work stood still"`
	Tired        []tired           `json:"hours_over_guidance,omitempty" doc:"hours that guidance advises against"`
	Next         []schedule.TaskID `json:"next,omitempty" doc:"the first of later days"`
	Hazards      []string          `json:"hazards,omitempty" doc:"of the day's work"`
}

// weatherLogged is weather that the log has for a day.
type weatherLogged struct {
	What string `json:"what" doc:"wet, windy, frost or heat"`
	calendars.Span
}

// free is so many of a crew who are at work and have nothing to do.
type free struct {
	Crew  schedule.CrewID `json:"crew" doc:"the crew"`
	Heads int             `json:"heads" doc:"of them"`
	calendars.Span
}

type line struct {
	Number   int                 `json:"number" doc:"the short number, the same on every sheet and in the log"`
	Task     schedule.TaskID     `json:"task,omitempty" doc:"whose work it is"`
	Delivery schedule.DeliveryID `json:"delivery,omitempty" doc:"whose unloading it is"`
	Name     string              `json:"name" doc:"as the plan has it"`
	State    sheets.State        `json:"state" doc:"how far it is"`
	calendars.Span
	First     bool                       `json:"first" doc:"the work begins in it"`
	Last      bool                       `json:"last" doc:"the work ends in it"`
	OnChain   bool                       `json:"on_chain" doc:"it is on the hand-over chain"`
	Zones     []schedule.ZoneID          `json:"zones,omitempty" doc:"where it is"`
	Crew      map[schedule.CrewID]int    `json:"crew,omitempty" doc:"heads at work"`
	Machines  map[schedule.MachineID]int `json:"machines,omitempty" doc:"at work"`
	Before    []tie                      `json:"before,omitempty" doc:"what must come before"`
	After     []tie                      `json:"after,omitempty" doc:"what waits for it"`
	Uses      []schedule.DeliveryID      `json:"uses,omitempty" doc:"what it uses"`
	HoldPoint string                     `json:"hold_point,omitempty" doc:"what is signed"`
	DoneWhen  string                     `json:"done_when,omitempty" doc:"in the plan's words"`
	MaySlip   shape.Float                `json:"may_slip" doc:"before it hurts; null when nothing limits it"`
	Hazards   []string                   `json:"hazards,omitempty" doc:"of the work"`
	Facts     []fact                     `json:"facts" doc:"the sentences of the text"`
}

// accident is an accident or a near miss that isn't dealt with.
type accident struct {
	Event    string            `json:"event" doc:"its id in the log"`
	At       calendars.Instant `json:"at" doc:"when it happened"`
	Sentence string            `json:"sentence" doc:"what happened, in words"`
}

// failedSignOff is a task that failed its sign-off or another check and isn't right since.
type failedSignOff struct {
	Number   int               `json:"number" doc:"the short number"`
	Task     schedule.TaskID   `json:"task" doc:"that failed its sign-off or another check"`
	Failed   calendars.Instant `json:"failed" doc:"when it failed"`
	Wrong    string            `json:"wrong" doc:"why it failed"`
	Sentence string            `json:"sentence" doc:"what is to be done, in words"`
}

// condition is work on condition of which something was signed.
type condition struct {
	Task     schedule.TaskID   `json:"task" doc:"what was signed"`
	Work     schedule.TaskID   `json:"condition" doc:"the work that is still to be done"`
	By       calendars.Instant `json:"by" doc:"until when"`
	Sentence string            `json:"sentence" doc:"the same in words"`
}

// cancelledTask is a task that was cancelled before it was begun.
type cancelledTask struct {
	Number   int               `json:"number" doc:"the short number that it had"`
	Task     string            `json:"task" doc:"its id"`
	At       calendars.Instant `json:"at" doc:"since when"`
	Sentence string            `json:"sentence" doc:"the same in words"`
}

// begunWork is a task that is begun, isn't ticked as finished and has no line on the day.
type begunWork struct {
	Number   int               `json:"number" doc:"the short number"`
	Task     schedule.TaskID   `json:"task" doc:"the task"`
	Started  calendars.Instant `json:"started" doc:"when it was started"`
	Sentence string            `json:"sentence" doc:"how far it is, in words"`
}

type fact struct {
	About    wording.FactKind `json:"about" doc:"what it is about"`
	Sentence string           `json:"sentence" doc:"in words"`
}

// tie is what a line waits for, or what waits for it.
type tie struct {
	Number   int                 `json:"number" doc:"the short number"`
	Task     schedule.TaskID     `json:"task,omitempty" doc:"the other task"`
	Delivery schedule.DeliveryID `json:"delivery,omitempty" doc:"the other delivery"`
	Link     schedule.LinkKind   `json:"link" doc:"which ends it joins"`
	At       calendars.Instant   `json:"at" doc:"when the other thing happens"`
	Free     *calendars.Instant  `json:"free,omitempty" doc:"when what comes before lets go"`
	Hold     bool                `json:"hold_point,omitempty" doc:"a sign-off comes between"`
	Within   *calendars.Minutes  `json:"within,omitempty" doc:"the longest wait"`
}

type duty struct {
	Duty  string          `json:"duty" doc:"its id"`
	Crew  schedule.CrewID `json:"crew" doc:"who has it"`
	Heads int             `json:"heads" doc:"of them"`
	calendars.Span
	Done calendars.Instant `json:"done,omitempty" doc:"when it was done on the date, by the log"`
	By   string            `json:"done_by,omitempty" doc:"who did it, or else logged it"`
}

// pass is a lorry at the gate.
type pass struct {
	Number   int                 `json:"number" doc:"the short number"`
	Delivery schedule.DeliveryID `json:"delivery" doc:"the delivery"`
	What     string              `json:"what" doc:"what comes"`
	Out      bool                `json:"out,omitempty" doc:"it is a collection"`
	State    sheets.State        `json:"state" doc:"how far it is"`
	Arrives  calendars.Instant   `json:"arrives" doc:"when it is at the gate"`
	Slot     calendars.Span      `json:"slot" doc:"its unloading"`
	Leaves   calendars.Instant   `json:"waits_until" doc:"how long it stands for nothing before"`
	Waiting  calendars.Minutes   `json:"waiting_time,omitempty" doc:"how long it stands beyond that"`
	Cost     schedule.Money      `json:"waiting_cost,omitempty" doc:"of its waiting time, where a rate is said"`
	Keep     calendars.Instant   `json:"keep_until,omitempty" doc:"living stock only"`
	Latest   calendars.Instant   `json:"late_arrival" doc:"latest as programmed; null when nothing limits it"`
	Users    []schedule.TaskID   `json:"for,omitempty" doc:"those that use it"`
	Overdue  calendars.Instant   `json:"overdue,omitempty" doc:"its booking, if it hasn't come by then"`
	Refused  bool                `json:"refused,omitempty" doc:"it was sent away and has not come again"`
}

type appointment struct {
	Number int                 `json:"number" doc:"the short number"`
	Task   schedule.TaskID     `json:"task" doc:"whose hold point it is"`
	What   string              `json:"what" doc:"what is signed"`
	State  sheets.State        `json:"state" doc:"how far it is"`
	Booked bool                `json:"by_appointment" doc:"there are set ones"`
	At     calendars.Instant   `json:"at" doc:"when it is"`
	Over   calendars.Instant   `json:"over" doc:"when it is over"`
	Later  []calendars.Instant `json:"later,omitempty" doc:"appointments left after it"`
	Failed calendars.Instant   `json:"failed,omitempty" doc:"when it was inspected and not signed"`
	Signed calendars.Instant   `json:"signed,omitempty" doc:"when it was signed"`
	By     string              `json:"signed_by,omitempty" doc:"who signed it"`
	Waits  []tie               `json:"waits,omitempty" doc:"what waits for it"`
}

// tired is hours of a crew that guidance advises against.
type tired struct {
	Crew     schedule.CrewID `json:"crew" doc:"the crew"`
	Kind     safety.Kind     `json:"kind" doc:"what is against guidance"`
	Sentence string          `json:"sentence" doc:"the same in words"`
}

// promise is what others owe.
type promise struct {
	Given schedule.GivenID  `json:"given" doc:"the given"`
	What  string            `json:"what" doc:"what it is"`
	From  calendars.Instant `json:"from" doc:"when it is there"`
	First schedule.TaskID   `json:"first,omitempty" doc:"the first to need it"`
}

type snag struct {
	ID     string            `json:"id" doc:"of the log's event"`
	Task   schedule.TaskID   `json:"task,omitempty" doc:"that it is about"`
	Text   string            `json:"text" doc:"what is to be put right"`
	Opened calendars.Instant `json:"opened" doc:"when it was seen"`
}

// TodayJSON writes the run sheet of a day as one JSON object. The error is the
// writer's.
func (s *Sheets) TodayJSON(out io.Writer, d *sheets.Day) error {
	o := runSheet{sheetObject: s.top(), day: s.dayObject(d), Mends: s.r.Mending(s.Mends).mendsObject()}
	if d.Crew == sheets.Everyone {
		o.Beyond = s.r.beyondObject()
	}
	return s.r.write(out, o)
}

// AheadJSON writes the look-ahead as one JSON object, with a run sheet for each day. The
// error is the writer's.
func (s *Sheets) AheadJSON(out io.Writer, from calendars.Date, days int) error {
	o := lookAhead{sheetObject: s.top()}
	for on := from; on < from+calendars.Date(days); on++ {
		o.Days = append(o.Days, s.dayObject(s.book.Of(on, sheets.Everyone)))
	}
	if s.book.Lead {
		o.Desk = s.deskLines(s.deskAhead(from, days))
	}
	return s.r.write(out, o)
}

// GateJSON writes the gate list as one JSON object, of a date, or of the whole build if
// on is nil. The error is the writer's.
func (s *Sheets) GateJSON(out io.Writer, on *calendars.Date) error {
	return s.r.write(out, gateList{sheetObject: s.top(), Gate: each(s.passes(on), s.passObject)})
}

// passes are the lorries of a date, or of the whole build if on is nil.
func (s *Sheets) passes(on *calendars.Date) []sheets.Pass {
	if on != nil {
		return s.book.Gate(*on)
	}
	return s.book.Passes()
}

// AppointmentsJSON writes the appointments and what others owe as one JSON object. The
// error is the writer's.
func (s *Sheets) AppointmentsJSON(out io.Writer) error {
	o := appointments{sheetObject: s.top(), Appointments: each(s.book.Appointments(), s.appointmentObject)}
	for _, p := range s.book.Promises() {
		o.Givens = append(o.Givens, promise{p.Given, s.r.of.Plan.Givens[p.Given].What, p.From, p.First})
	}
	return s.r.write(out, o)
}

// ReadyJSON writes the hand-over list as one JSON object. The error is the writer's.
func (s *Sheets) ReadyJSON(out io.Writer, y *sheets.Ready) error {
	o := handoverList{
		sheetObject: s.top(), At: y.At, Ready: y.Can(), Words: s.r.words.Ready(y), Unfinished: y.Unfinished,
		Unsigned: each(y.Unsigned, s.appointmentObject), Signed: each(y.Signed, s.appointmentObject),
		Curing: y.Drying, Lorries: each(y.Lorries, s.passObject),
		Optional: y.Optional, Dropped: y.Dropped, Spare: each(y.Spare, s.passObject),
	}
	for _, x := range y.Snags {
		o.Snags = append(o.Snags, snag{x.ID, x.Task, x.Text, x.Opened})
	}
	return s.r.write(out, o)
}
