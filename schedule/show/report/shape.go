package report

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/shape"
	"build.example/turflast/schedule/show/wording"
)

// programme is what [Report.JSON] writes.
type programme struct {
	Format     string            `json:"format" const:"turflast.programme"`
	Version    int               `json:"version" const:"2"`
	Garden     string            `json:"garden" doc:"its name"`
	Scope      schedule.Scope    `json:"scope" doc:"what the programme takes into account"`
	Timezone   string            `json:"timezone" doc:"tz database name"`
	Window     window            `json:"window" doc:"when the site is ours"`
	AsAt       calendars.Instant `json:"as_at,omitempty" doc:"up to which the site log tells; none as planned"`
	Orders     []order           `json:"orders_past,omitempty" doc:"whose date is over, and the log shows no sign of them"`
	Unsure     []order           `json:"orders_unconfirmed,omitempty" doc:"ordered by the log, and not confirmed"`
	Met        bool              `json:"met" doc:"every date is met"`
	Finish     calendars.Instant `json:"finish" doc:"when the last required work is done"`
	Margin     *margin           `json:"margin,omitempty" doc:"from the finish to the hand-over"`
	Chance     *chance           `json:"chance,omitempty" doc:"how likely it is on time, if it was asked"`
	AimMargin  *margin           `json:"aim_margin,omitempty" doc:"from the finish to the aim"`
	Least      *leastSlip        `json:"slips_least,omitempty" doc:"what may slip least; none while a date breaks"`
	Sentence   string            `json:"sentence" doc:"the margin in words"`
	Verdict    string            `json:"verdict" doc:"the verdict in words"`
	Blocked    string            `json:"blocked,omitempty" doc:"why some work has no place, in words"`
	NoPlace    []noPlace         `json:"no_place,omitempty" doc:"what has no place, in the order of the plan"`
	Bound      calendars.Instant `json:"bound,omitempty" doc:"before it the last required work is proven not to be done"`
	AsTold     calendars.Instant `json:"bound_as_told,omitempty" doc:"the same while what was told of the next days stays"`
	Proof      proofKind         `json:"proof,omitempty" doc:"what the check recomputes of the bound"`
	Cut        *cut              `json:"interrupted,omitempty" doc:"what an interrupt left out"`
	Overfull   *overfull         `json:"overfull,omitempty" doc:"what is over-full if the hand-over, or the bound, is met"`
	Moves      []move            `json:"moves,omitempty" doc:"starts that differ from the baseline's"`
	SiteLog    []logRemark       `json:"site_log,omitempty" doc:"what the log says beside the dates that it gives"`
	Breaks     []dateBreak       `json:"breaks" doc:"dates that break"`
	Beyond     *beyondLine       `json:"beyond_the_line,omitempty" doc:"what of a late programme lies after the hand-over"`
	Mends      *mends            `json:"mends,omitempty" doc:"what would mend them, if it was asked"`
	Chain      []chainStep       `json:"handover_chain" doc:"what fixes the finish, step by step"`
	Tasks      []taskDates       `json:"tasks" doc:"all tasks, in the order of the plan"`
	Deliveries []deliveryDates   `json:"deliveries" doc:"all deliveries, in the order of the plan"`
}

type proofKind = schedule.ProofKind

// cut is what an interrupt left out of a programme.
type cut struct {
	Search   bool   `json:"search,omitempty" doc:"for a better one: it ended early"`
	Bound    bool   `json:"bound,omitempty" doc:"not all was tried to raise it"`
	Reasons  bool   `json:"reasons,omitempty" doc:"of starts, and the chain: there are none"`
	Floats   bool   `json:"crew_floats,omitempty" doc:"there are none, nor latest arrivals"`
	Sentence string `json:"sentence" doc:"the same in words"`
}

type window struct {
	Opens    calendars.Instant `json:"opens" doc:"the gate opens"`
	Handover calendars.Instant `json:"handover" doc:"the hand-over"`
	Aim      calendars.Instant `json:"aim,omitempty" doc:"a finish aimed at before it"`
}

type margin struct {
	Minutes calendars.Minutes `json:"minutes" doc:"site time, negative when late"`
	Clock   bool              `json:"clock,omitempty" doc:"it is clock time, the site being closed"`
}

// leastSlip is the task that may slip least, of those still to be finished.
type leastSlip struct {
	Task     schedule.TaskID   `json:"task" doc:"of several one that may take longer, or else the first"`
	Minutes  calendars.Minutes `json:"minutes" doc:"its crew float"`
	Others   int               `json:"others" doc:"how many more may slip as little"`
	Sentence string            `json:"sentence" doc:"the same in words"`
}

// overfull is a shared resource that is needed for longer than it is there.
type overfull struct {
	Crew    schedule.CrewID    `json:"crew,omitempty" doc:"the crew that is"`
	Machine schedule.MachineID `json:"machine,omitempty" doc:"the machine that is"`
	Zone    schedule.ZoneID    `json:"zone,omitempty" doc:"the zone whose room is"`
	Gate    bool               `json:"gate,omitempty" doc:"the gate is"`
	Alone   schedule.TaskID    `json:"alone,omitempty" doc:"the time that a rule keeps for it is"`
	calendars.Span
	AtOnce     int                   `json:"at_once,omitempty" doc:"people, machines or places that it takes throughout"`
	Have       int                   `json:"have,omitempty" doc:"of these, there throughout; only with at_once"`
	Until      calendars.Instant     `json:"until" doc:"the last required work would be done by then"`
	Needed     calendars.Minutes     `json:"needed" doc:"of people, machines or places; 0 when no sum says it"`
	There      calendars.Minutes     `json:"there" doc:"of people, machines or places, as needed"`
	Tasks      []schedule.TaskID     `json:"tasks,omitempty" doc:"those that need it"`
	Deliveries []schedule.DeliveryID `json:"deliveries,omitempty" doc:"those that need it"`
	Spends     []spend               `json:"spends,omitempty" doc:"what each of them must spend, tasks first"`
	BySearch   bool                  `json:"by_search,omitempty" doc:"it can't be recomputed from the plan alone"`
	Sentence   string                `json:"sentence" doc:"the same in words"`
}

type spend struct {
	Minutes calendars.Minutes `json:"minutes" doc:"within the window, at the least"`
	Amount  int               `json:"amount" doc:"people, machines or places meanwhile"`
}

type move struct {
	Task     schedule.TaskID   `json:"task" doc:"whose start differs"`
	Was      calendars.Instant `json:"was" doc:"its start in the baseline; null when left out there"`
	Now      calendars.Instant `json:"now" doc:"its start; null when left out"`
	Sentence string            `json:"sentence" doc:"the same in words"`
}

type logRemark struct {
	Kind     wording.RemarkKind  `json:"kind" doc:"what it is about"`
	Task     schedule.TaskID     `json:"task,omitempty" doc:"that it is about"`
	Delivery schedule.DeliveryID `json:"delivery,omitempty" doc:"that it is about"`
	Event    string              `json:"event,omitempty" doc:"id of an event of the log"`
	Sentence string              `json:"sentence" doc:"the same in words"`
}

type noPlace struct {
	Task     schedule.TaskID     `json:"task,omitempty" doc:"what has no place"`
	Delivery schedule.DeliveryID `json:"delivery,omitempty" doc:"what has no place"`
	Needs    schedule.TaskID     `json:"needs,omitempty" doc:"the task without a place that it waits for"`
	NeedsOf  schedule.DeliveryID `json:"needs_delivery,omitempty" doc:"the delivery without a place that it waits for"`
	Ring     []schedule.TaskID   `json:"ring,omitempty" doc:"whose longest waits can't all hold"`
	Sentence string              `json:"sentence" doc:"why"`
}

type dateBreak struct {
	Kind     schedule.BreakKind  `json:"kind" doc:"which date it is"`
	Task     schedule.TaskID     `json:"task,omitempty" doc:"whose date it is"`
	Delivery schedule.DeliveryID `json:"delivery,omitempty" doc:"whose date it is"`
	Limit    calendars.Instant   `json:"limit" doc:"the date"`
	Actual   calendars.Instant   `json:"actual" doc:"when it happens"`
	Sentence string              `json:"sentence" doc:"what breaks, by how much"`
}

type chainStep struct {
	Task     schedule.TaskID     `json:"task,omitempty" doc:"the step is its work"`
	Delivery schedule.DeliveryID `json:"delivery,omitempty" doc:"the step is its unloading"`
	Start    calendars.Instant   `json:"start" doc:"its start"`
	Reason   reason              `json:"reason" doc:"what it waited for"`
}

// floats are the late dates and floats of a task or of an unloading.
type floats struct {
	LateStart  calendars.Instant  `json:"late_start" doc:"latest that meets every date; null when nothing limits it"`
	LateFinish *calendars.Instant `json:"late_finish,omitempty" doc:"latest finish that does; tasks only"`
	TooLate    bool               `json:"too_late,omitempty" doc:"no start is early enough to meet every date"`
	TotalFloat shape.Float        `json:"total_float" doc:"of its own hours"`
	FreeFloat  shape.Float        `json:"free_float" doc:"of its own hours, before what follows moves"`
	CrewFloat  *shape.Float       `json:"crew_float,omitempty" doc:"in the order of hands; crews only"`
	Phantom    *shape.Float       `json:"phantom_float,omitempty" doc:"the part of total_float beyond it"`
	OnChain    bool               `json:"on_chain" doc:"it is on the hand-over chain"`
}

type taskDates struct {
	ID       schedule.TaskID    `json:"id" doc:"its id"`
	Name     string             `json:"name" doc:"its name"`
	Zones    []schedule.ZoneID  `json:"zones" doc:"where it is"`
	Stage    schedule.StageID   `json:"stage" doc:"of the work"`
	Optional bool               `json:"optional,omitempty" doc:"it may be left out"`
	Dropped  bool               `json:"dropped,omitempty" doc:"it is left out"`
	Start    calendars.Instant  `json:"start" doc:"of the work"`
	Finish   calendars.Instant  `json:"finish" doc:"of the work"`
	Done     calendars.Instant  `json:"done" doc:"cure and hold point included"`
	Signed   *calendars.Instant `json:"signed,omitempty" doc:"when the hold point is over"`
	*soFar
	floats
	Crew     map[schedule.CrewID]int    `json:"crew,omitempty" doc:"heads at work"`
	Machines map[schedule.MachineID]int `json:"machines,omitempty" doc:"at work"`
	Work     []calendars.Span           `json:"work" doc:"the stretches worked"`
	Why      []reason                   `json:"why" doc:"what fixes the start; the driver first"`
	Sentence string                     `json:"sentence" doc:"the same in words"`
}

// soFar is what has happened to a task by the site log.
type soFar struct {
	State     taskState          `json:"state" doc:"how far it is; none before it is started"`
	Paused    bool               `json:"paused,omitempty" doc:"nobody is at it"`
	Left      *calendars.Minutes `json:"left,omitempty" doc:"of work left for those at it"`
	HoldPoint holdState          `json:"hold_point,omitempty" doc:"once the work was finished"`
	PutRight  bool               `json:"to_put_right,omitempty" doc:"it failed its sign-off or another check"`
}

type deliveryDates struct {
	ID      schedule.DeliveryID `json:"id" doc:"its id"`
	What    string              `json:"what" doc:"what comes"`
	Out     bool                `json:"out,omitempty" doc:"it is a collection"`
	Arrives calendars.Instant   `json:"arrives" doc:"when it is at the gate"`
	Planned *calendars.Instant  `json:"planned,omitempty" doc:"the plan's booking, where the programme differs"`
	State   lorryState          `json:"state,omitempty" doc:"what has happened to it, by the site log"`
	Unload  calendars.Span      `json:"unload" doc:"its unloading"`
	Logged  bool                `json:"unload_logged,omitempty" doc:"the end of that is logged; else it is the plan's"`
	floats
	Waiting     calendars.Minutes  `json:"waiting_time,omitempty" doc:"how long it stands beyond what it does for nothing"`
	WaitingCost schedule.Money     `json:"waiting_cost,omitempty" doc:"of its waiting time, where a rate is said"`
	LateArrival calendars.Instant  `json:"late_arrival" doc:"latest as programmed; null when nothing limits it"`
	KeepUntil   *calendars.Instant `json:"keep_until,omitempty" doc:"living stock only"`
	Why         []reason           `json:"why" doc:"what fixes the start of the unloading; the driver first"`
	Sentence    string             `json:"sentence" doc:"the same in words"`
}

type reason struct {
	Kind      schedule.ReasonKind `json:"kind" doc:"what fixes the moment"`
	Task      schedule.TaskID     `json:"task,omitempty" doc:"the other task"`
	Delivery  schedule.DeliveryID `json:"delivery,omitempty" doc:"the other delivery"`
	Given     schedule.GivenID    `json:"given,omitempty" doc:"that it waits for"`
	Rule      schedule.RuleID     `json:"rule,omitempty" doc:"that it keeps"`
	Zone      schedule.ZoneID     `json:"zone,omitempty" doc:"in which it is so"`
	Crew      schedule.CrewID     `json:"crew,omitempty" doc:"that it waits for"`
	Machine   schedule.MachineID  `json:"machine,omitempty" doc:"that it waits for"`
	Closed    schedule.Closed     `json:"closed,omitempty" doc:"whose hours hold it back"`
	Link      *schedule.LinkKind  `json:"link,omitempty" doc:"which ends it joins"`
	Lag       *calendars.Minutes  `json:"lag,omitempty" doc:"of open time, negative for a lead"`
	Cure      *calendars.Minutes  `json:"cure,omitempty" doc:"on the clock"`
	Within    *calendars.Minutes  `json:"within,omitempty" doc:"on the clock"`
	HoldPoint bool                `json:"hold_point,omitempty" doc:"the other task's hold point is what holds"`
	Event     calendars.Instant   `json:"event,omitempty" doc:"when the other thing happens"`
	Until     calendars.Instant   `json:"until,omitempty" doc:"the moment that this allows"`
	Sentence  string              `json:"sentence" doc:"the clause in words"`
}
