package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/ask/tolerance"
	"build.example/turflast/schedule/show/wording"
)

// ToleranceFormat and ToleranceVersion name the shape that
// [Report.ToleranceJSON] writes.
const (
	ToleranceFormat  = "turflast.tolerance"
	ToleranceVersion = 1
)

// ToleranceJSON writes how late each delivery may come and each task may start
// as one JSON object; moments and lengths are as [Report.JSON] writes them, dates
// are those of the site. Lists hold what can hurt most first. When a date breaks
// as it is, they are left out.
//
//	format                       "turflast.tolerance"
//	version                      1
//	garden                       name
//	timezone                     tz database name
//	met                          true when every date is met with everything on time
//	stopped                      true when it was stopped early: the lists aren't all that was asked
//	finish                       moment when the last required task is done
//	margin.minutes               as in the programme
//	margin.clock                 likewise
//	sentence                     the margin in words, or that a date breaks already
//	verdict                      the verdict in words
//	breaks[]                     as in the programme
//	deliveries[].id              id
//	deliveries[].what            what comes
//	deliveries[].out             true for a collection
//	deliveries[].planned         the plan's booking, when the programme books it otherwise
//	deliveries[].booked          moment
//	deliveries[].held            latest arrival up to which a checked programme is in hand; null when there is none
//	deliveries[].later           minutes on the clock from booked to held
//	deliveries[].broken          arrival after it from which a date is proven to break; null when nothing is proven
//	deliveries[].closed          true when the two are a minute apart: nothing is unknown between
//	deliveries[].again[]         moment, a later gate opening at which it can come again
//	deliveries[].earliest        earliest booking
//	deliveries[].order_by        date to order by for the booking, such as "2027-02-17"
//	deliveries[].order_by_latest date to order by for the latest booking
//	deliveries[].sentence        how late it may come, in words
//	tasks[].id                   id; tasks only when asked for
//	tasks[].name                 name
//	tasks[].dropped              true when it is left out; it has no figures
//	tasks[].start                moment
//	tasks[].held                 latest start for which a checked programme is in hand
//	tasks[].later                minutes of its own hours from start to held
//	tasks[].broken               as for deliveries
//	tasks[].closed               likewise
//	tasks[].sentence             how late it may start, in words
//	pairs[].deliveries[]         id, of the two that break a date together though neither does alone; only when asked for
//	pairs[].late[]               minutes on the clock that each is late, its worst or a day
//	pairs[].proven               false when no programme was found for both, which proves nothing
//	pairs[].sentence             the same in words
//
// The error is the writer's.
func (r *Report) ToleranceJSON(out io.Writer, t *Tolerance) error {
	o := toleranceObject{
		Format: ToleranceFormat, Version: ToleranceVersion, Garden: r.plan.Garden, Timezone: r.plan.Site.Location.String(),
		Met: r.met(), Finish: r.moment(r.prog.Finish), Sentence: r.words.Margin(r.prog), Verdict: r.words.Verdict(r.prog),
		Breaks: r.breakObjects(r.prog.Breaks),
	}
	if r.prog.Finish.IsReal() {
		o.Margin = &margin{r.prog.Handover.Time, r.prog.Handover.Clock}
	}
	if !o.Met {
		o.Sentence = r.words.AlreadyBroken()
		return encode(out, o)
	}
	o.Stopped = t.Stopped
	lorries := []lateLorry{}
	for _, d := range tolerance.ByHurt(r.plan, t.Deliveries) {
		lorries = append(lorries, r.lateLorryObject(d))
	}
	o.Deliveries = &lorries
	if t.WithTasks {
		o.Tasks = &[]lateTask{}
		for _, x := range r.tasksByHurt(t.Tasks) {
			*o.Tasks = append(*o.Tasks, r.lateTaskObject(x))
		}
	}
	if t.WithPairs {
		o.Pairs = &[]latePair{}
		for _, x := range t.Pairs {
			*o.Pairs = append(*o.Pairs, r.latePairObject(x))
		}
	}
	return encode(out, o)
}

// toleranceObject is the shape that the doc comment of ToleranceJSON describes.
type toleranceObject struct {
	Format     string       `json:"format"`
	Version    int          `json:"version"`
	Garden     string       `json:"garden"`
	Timezone   string       `json:"timezone"`
	Met        bool         `json:"met"`
	Stopped    bool         `json:"stopped,omitempty"`
	Finish     *moment      `json:"finish"`
	Margin     *margin      `json:"margin,omitempty"`
	Sentence   string       `json:"sentence"`
	Verdict    string       `json:"verdict"`
	Breaks     []dateBreak  `json:"breaks"`
	Deliveries *[]lateLorry `json:"deliveries,omitempty"`
	Tasks      *[]lateTask  `json:"tasks,omitempty"`
	Pairs      *[]latePair  `json:"pairs,omitempty"`
}

// howLate is what is known of a delivery or a task.
type howLate struct {
	Held   *moment            `json:"held"`
	Later  *calendars.Minutes `json:"later"`
	Broken *moment            `json:"broken"`
	Closed bool               `json:"closed"`
}

type lateLorry struct {
	ID      string  `json:"id"`
	What    string  `json:"what"`
	Out     bool    `json:"out,omitempty"`
	Planned *moment `json:"planned,omitempty"`
	Booked  *moment `json:"booked"`
	howLate
	Again         []*moment `json:"again"`
	Earliest      *moment   `json:"earliest"`
	OrderBy       string    `json:"order_by,omitempty"`
	OrderByLatest string    `json:"order_by_latest,omitempty"`
	Sentence      string    `json:"sentence"`
}

type lateTask struct {
	ID      string  `json:"id"`
	Name    string  `json:"name"`
	Dropped bool    `json:"dropped,omitempty"`
	Start   *moment `json:"start"`
	howLate
	Sentence string `json:"sentence"`
}

type latePair struct {
	Deliveries [2]string            `json:"deliveries"`
	Late       [2]calendars.Minutes `json:"late"`
	Proven     bool                 `json:"proven"`
	Sentence   string               `json:"sentence"`
}

func (r *Report) howLate(t wording.Tolerance, later calendars.Minutes) howLate {
	o := howLate{Held: r.moment(t.Held), Broken: r.moment(t.Broken), Closed: t.Closed()}
	if t.Held.IsReal() {
		o.Later = &later
	}
	return o
}

func (r *Report) lateLorryObject(x tolerance.Delivery) lateLorry {
	d, t := &r.plan.Deliveries[x.Delivery], lorryTolerance(x)
	o := lateLorry{
		ID: d.ID, What: d.What, Out: d.Out, Booked: r.moment(x.Booked), howLate: r.howLate(t, t.Clock()),
		Again: []*moment{}, Earliest: r.moment(x.Earliest), Sentence: r.lorrySentence(x),
	}
	if x.Booked != d.Arrives {
		o.Planned = r.moment(d.Arrives)
	}
	for _, at := range x.Again {
		o.Again = append(o.Again, r.moment(at))
	}
	if d.OrderAhead > 0 {
		date := func(t calendars.Instant) string {
			return calendars.DateIn(t.Plus(-d.OrderAhead), r.plan.Site.Location).String()
		}
		o.OrderBy, o.OrderByLatest = date(x.Booked), date(max(x.Booked, x.Held))
	}
	return o
}

func (r *Report) lateTaskObject(x tolerance.Task) lateTask {
	t := &r.plan.Tasks[x.Task]
	return lateTask{
		ID: t.ID, Name: t.Name, Dropped: r.prog.Tasks[x.Task].Dropped, Start: r.moment(x.Start),
		howLate: r.howLate(taskTolerance(x), r.ownHours(x)), Sentence: r.taskSentence(x),
	}
}

func (r *Report) latePairObject(x tolerance.Pair) latePair {
	a, b := &r.plan.Deliveries[x.First], &r.plan.Deliveries[x.Second]
	return latePair{
		[2]string{a.ID, b.ID}, [2]calendars.Minutes{tolerance.Lateness(a), tolerance.Lateness(b)}, x.Proven, r.lateTogether(x),
	}
}
