package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
)

// The names of the shapes that the sheets write as JSON; all are of [Version], and
// keep the conventions of [Report.JSON]. Each begins with
//
//	format                one of these names
//	version               1
//	garden                name
//	timezone              tz database name
//	as_at                 the moment of the site log's progress; left out without a log
//	sentence              the margin in words
//	breaks                dates that break, a sentence each
//	note                  such as that today is no day of the build
//
// The run sheet goes on with a day, the look-ahead with a list of them under "days":
//
//	on                    date
//	crew                  id; left out for everyone
//	open                  when the crew is at work, or the site open: from and to
//	heads                 the most of the crew at a time
//	lines                 the work of the day
//	duties                duty, crew, heads, from, to
//	gate                  what comes and goes through the gate
//	appointments          sign-offs of the day
//	hours_over_guidance   crew; kind: "long_shift", "short_rest", "no_day_off" or "long_week"; sentence
//	next                  ids of the first tasks of later days
//	hazards               names
//
// A line:
//
//	number                the short number, the same on every sheet and in the log
//	task, delivery        id
//	name                  as the plan has it
//	state                 "ahead", "in_hand", "unsigned" or "ticked"
//	from, to              moments of the day
//	first, last           true when the work begins, or ends, in it
//	on_chain              true when it is on the hand-over chain
//	zones                 ids
//	crew, machines        count by id
//	before, after         ties: what must come before, what waits for it
//	uses                  ids of deliveries
//	hold_point            what is signed
//	done_when             in the plan's words
//	may_slip              minutes before it hurts; null when nothing limits it
//	facts                 the sentences of the text: about, sentence
//
// A tie has number, task or delivery, link (the kind), at (the event), free (when
// what comes before lets go), hold_point (true when a sign-off comes between), within
// (minutes). A pass of the gate list, under "gate" or "lorries", has
//
//	what                  what comes
//	out                   true for a collection
//	arrives               moment
//	slot                  from and to
//	waits_until           moment
//	keep_until            moment, living stock only
//	late_arrival          latest arrival at which every date that hangs on it holds
//	for                   ids of the tasks that use it
//	overdue               its booking, if it hasn't come by then
//	refused               true when it was sent away and has not come again
//
// An appointment, under "appointments" or "unsigned", has
//
//	by_appointment        true when there are set ones
//	over                  when it is over
//	later                 appointments left after it
//	failed, signed        moments
//	waits                 ties: what waits for it
//
// and "givens" are what others owe: given, what, from, first (the first task to need
// it). The hand-over list has
//
//	at                    the moment
//	ready                 true when the garden can be handed over
//	verdict               the same in words
//	unfinished            ids of tasks
//	unsigned              appointments
//	curing                ids of tasks
//	lorries               passes still to come or go
//	snags                 id, task, text, opened
//	optional_unfinished   ids of tasks
//	optional_left_out     ids of tasks
const (
	RunSheetFormat     = "turflast.run-sheet"
	LookAheadFormat    = "turflast.look-ahead"
	GateListFormat     = "turflast.gate-list"
	AppointmentsFormat = "turflast.appointments"
	HandoverListFormat = "turflast.hand-over-list"
)

// sheetObject is what all sheets begin with.
type sheetObject struct {
	Format   string   `json:"format"`
	Version  int      `json:"version"`
	Garden   string   `json:"garden"`
	Timezone string   `json:"timezone"`
	AsAt     *moment  `json:"as_at,omitempty"`
	Sentence string   `json:"sentence"`
	Breaks   []string `json:"breaks,omitempty"`
	Said     string   `json:"note,omitempty"`
}

type dayObject struct {
	On           string              `json:"on"`
	Crew         string              `json:"crew,omitempty"`
	Open         []stretch           `json:"open"`
	Heads        *int                `json:"heads,omitempty"`
	Lines        []lineObject        `json:"lines"`
	Duties       []dutyObject        `json:"duties,omitempty"`
	Gate         []passObject        `json:"gate,omitempty"`
	Appointments []appointmentObject `json:"appointments,omitempty"`
	Tired        []tiredObject       `json:"hours_over_guidance,omitempty"`
	Next         []string            `json:"next,omitempty"`
	Hazards      []string            `json:"hazards,omitempty"`
}

type lineObject struct {
	Number    int                 `json:"number"`
	Task      string              `json:"task,omitempty"`
	Delivery  string              `json:"delivery,omitempty"`
	Name      string              `json:"name"`
	State     string              `json:"state"`
	From      *moment             `json:"from"`
	To        *moment             `json:"to"`
	First     bool                `json:"first"`
	Last      bool                `json:"last"`
	OnChain   bool                `json:"on_chain"`
	Zones     []string            `json:"zones,omitempty"`
	Crew      map[string]int      `json:"crew,omitempty"`
	Machines  map[string]int      `json:"machines,omitempty"`
	Before    []tieObject         `json:"before,omitempty"`
	After     []tieObject         `json:"after,omitempty"`
	Uses      []string            `json:"uses,omitempty"`
	HoldPoint string              `json:"hold_point,omitempty"`
	DoneWhen  string              `json:"done_when,omitempty"`
	MaySlip   *calendars.Minutes  `json:"may_slip"`
	Hazards   []string            `json:"hazards,omitempty"`
	Facts     []map[string]string `json:"facts"`
}

type tieObject struct {
	Number   int                `json:"number"`
	Task     string             `json:"task,omitempty"`
	Delivery string             `json:"delivery,omitempty"`
	Link     string             `json:"link"`
	At       *moment            `json:"at"`
	Free     *moment            `json:"free,omitempty"`
	Hold     bool               `json:"hold_point,omitempty"`
	Within   *calendars.Minutes `json:"within,omitempty"`
}

type dutyObject struct {
	Duty  string  `json:"duty"`
	Crew  string  `json:"crew"`
	Heads int     `json:"heads"`
	From  *moment `json:"from"`
	To    *moment `json:"to"`
}

type passObject struct {
	Number   int      `json:"number"`
	Delivery string   `json:"delivery"`
	What     string   `json:"what"`
	Out      bool     `json:"out,omitempty"`
	State    string   `json:"state"`
	Arrives  *moment  `json:"arrives"`
	Slot     stretch  `json:"slot"`
	Leaves   *moment  `json:"waits_until"`
	Keep     *moment  `json:"keep_until,omitempty"`
	Latest   *moment  `json:"late_arrival"`
	Users    []string `json:"for,omitempty"`
	Overdue  *moment  `json:"overdue,omitempty"`
	Refused  bool     `json:"refused,omitempty"`
}

type appointmentObject struct {
	Number int         `json:"number"`
	Task   string      `json:"task"`
	What   string      `json:"what"`
	State  string      `json:"state"`
	Booked bool        `json:"by_appointment"`
	At     *moment     `json:"at"`
	Over   *moment     `json:"over"`
	Later  []*moment   `json:"later,omitempty"`
	Failed *moment     `json:"failed,omitempty"`
	Signed *moment     `json:"signed,omitempty"`
	Waits  []tieObject `json:"waits,omitempty"`
}

type tiredObject struct {
	Crew     string `json:"crew"`
	Kind     string `json:"kind"`
	Sentence string `json:"sentence"`
}

type promiseObject struct {
	Given string  `json:"given"`
	What  string  `json:"what"`
	From  *moment `json:"from"`
	First string  `json:"first,omitempty"`
}

type snagObject struct {
	ID     string  `json:"id"`
	Task   string  `json:"task,omitempty"`
	Text   string  `json:"text"`
	Opened *moment `json:"opened"`
}

// The names of states, facts and kinds of fatigue, by their number.
var (
	stateNames = [...]string{sheets.Ahead: "ahead", sheets.InHand: "in_hand", sheets.Unsigned: "unsigned", sheets.Ticked: "ticked"}
	factNames  = [...]string{
		wording.FactHappened: "happened", wording.FactWhere: "where", wording.FactBefore: "before", wording.FactGate: "gate",
		wording.FactAfter: "after", wording.FactDone: "done", wording.FactSlip: "slip", wording.FactWeather: "weather",
		wording.FactRoom: "room", wording.FactCare: "care", wording.FactNote: "note", wording.FactBreak: "break",
	}
	tiredNames = [...]string{"long_shift", "short_rest", "no_day_off", "long_week"}
)

func (s *Sheets) top(format string) sheetObject {
	o := sheetObject{Format: format, Version: Version, Garden: s.r.plan.Garden, Timezone: s.r.plan.Site.Location.String(),
		Sentence: s.r.words.Margin(s.r.prog), Said: s.Said}
	for _, b := range s.r.prog.Breaks {
		o.Breaks = append(o.Breaks, s.r.words.Break(b))
	}
	if now := s.r.plan.Now(); now != calendars.Past {
		o.AsAt = s.r.moment(now)
	}
	return o
}

// TodayJSON writes the run sheet of a day as one JSON object, with the words and
// conventions of [Report.JSON]: each line with its number, times, team, ties, and
// the sentences of the text under "facts". The error is the writer's.
func (s *Sheets) TodayJSON(out io.Writer, d *sheets.Day) error {
	return encode(out, struct {
		sheetObject
		dayObject
	}{s.top(RunSheetFormat), s.dayObject(d)})
}

// AheadJSON writes the look-ahead likewise, a run sheet a day. The error is the
// writer's.
func (s *Sheets) AheadJSON(out io.Writer, from calendars.Date, days int) error {
	list := []dayObject{}
	for on := from; on < from+calendars.Date(days); on++ {
		list = append(list, s.dayObject(s.book.Of(on, sheets.Everyone)))
	}
	return encode(out, struct {
		sheetObject
		Days []dayObject `json:"days"`
	}{s.top(LookAheadFormat), list})
}

// GateJSON writes the gate list likewise, of a date or of the whole build. The
// error is the writer's.
func (s *Sheets) GateJSON(out io.Writer, on *calendars.Date) error {
	passes := s.book.Passes()
	if on != nil {
		passes = s.book.Gate(*on)
	}
	return encode(out, struct {
		sheetObject
		Gate []passObject `json:"gate"`
	}{s.top(GateListFormat), s.passObjects(passes)})
}

// AppointmentsJSON writes the appointments and what others owe likewise. The error
// is the writer's.
func (s *Sheets) AppointmentsJSON(out io.Writer) error {
	promises := []promiseObject{}
	for _, p := range s.book.Promises() {
		g := &s.r.plan.Givens[p.Given]
		promises = append(promises, promiseObject{g.ID, g.What, s.r.moment(p.From), s.r.taskID(p.First)})
	}
	return encode(out, struct {
		sheetObject
		Appointments []appointmentObject `json:"appointments"`
		Givens       []promiseObject     `json:"givens"`
	}{s.top(AppointmentsFormat), s.appointmentObjects(s.book.Appointments()), promises})
}

// ReadyJSON writes the hand-over list likewise; "ready" says whether the garden can
// be handed over now. The error is the writer's.
func (s *Sheets) ReadyJSON(out io.Writer, y *sheets.Ready) error {
	snags := []snagObject{}
	for _, x := range y.Snags {
		snags = append(snags, snagObject{x.ID, s.r.taskID(x.Task), x.Text, s.r.moment(x.Opened)})
	}
	return encode(out, struct {
		sheetObject
		At         *moment             `json:"at"`
		Ready      bool                `json:"ready"`
		Words      string              `json:"verdict"`
		Unfinished []string            `json:"unfinished"`
		Unsigned   []appointmentObject `json:"unsigned"`
		Curing     []string            `json:"curing"`
		Lorries    []passObject        `json:"lorries"`
		Snags      []snagObject        `json:"snags"`
		Optional   []string            `json:"optional_unfinished"`
		Dropped    []string            `json:"optional_left_out"`
	}{s.top(HandoverListFormat), s.r.moment(y.At), y.Can(), s.readyWords(y), s.taskIDs(y.Unfinished), s.appointmentObjects(y.Unsigned),
		s.taskIDs(y.Drying), s.passObjects(y.Lorries), snags, s.taskIDs(y.Optional), s.taskIDs(y.Dropped)})
}

func (s *Sheets) taskIDs(tasks []schedule.TaskID) []string {
	out := []string{}
	for _, t := range tasks {
		out = append(out, s.r.taskID(t))
	}
	return out
}
