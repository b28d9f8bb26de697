package report

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
)

// object is the shape that the doc comment of JSON describes.
type object struct {
	Format     string          `json:"format"`
	Version    int             `json:"version"`
	Garden     string          `json:"garden"`
	Scope      string          `json:"scope"`
	Timezone   string          `json:"timezone"`
	Window     window          `json:"window"`
	AsAt       *moment         `json:"as_at,omitempty"`
	Met        bool            `json:"met"`
	Finish     *moment         `json:"finish"`
	Margin     *margin         `json:"margin,omitempty"`
	AimMargin  *margin         `json:"aim_margin,omitempty"`
	Sentence   string          `json:"sentence"`
	Verdict    string          `json:"verdict"`
	Blocked    string          `json:"blocked,omitempty"`
	Bound      *moment         `json:"bound,omitempty"`
	Overfull   *overfull       `json:"overfull,omitempty"`
	Moves      []move          `json:"moves,omitempty"`
	SiteLog    []logRemark     `json:"site_log,omitempty"`
	Breaks     []dateBreak     `json:"breaks"`
	Chain      []chainStep     `json:"handover_chain"`
	Tasks      []taskDates     `json:"tasks"`
	Deliveries []deliveryDates `json:"deliveries"`
}

type window struct {
	Opens    *moment `json:"opens"`
	Handover *moment `json:"handover"`
	Aim      *moment `json:"aim,omitempty"`
}

type margin struct {
	Minutes calendars.Minutes `json:"minutes"`
	Clock   bool              `json:"clock,omitempty"`
}

// overfull is something shared that is needed for longer than it is there.
type overfull struct {
	Crew       string            `json:"crew,omitempty"`
	Machine    string            `json:"machine,omitempty"`
	Zone       string            `json:"zone,omitempty"`
	Gate       bool              `json:"gate,omitempty"`
	Alone      string            `json:"alone,omitempty"`
	From       *moment           `json:"from"`
	To         *moment           `json:"to"`
	Until      *moment           `json:"until"`
	Needed     calendars.Minutes `json:"needed"`
	There      calendars.Minutes `json:"there"`
	Tasks      []string          `json:"tasks,omitempty"`
	Deliveries []string          `json:"deliveries,omitempty"`
	Sentence   string            `json:"sentence"`
}

type move struct {
	Task     string  `json:"task"`
	Was      *moment `json:"was"`
	Now      *moment `json:"now"`
	Sentence string  `json:"sentence"`
}

type logRemark struct {
	Kind     wording.RemarkKind `json:"kind"`
	Task     string             `json:"task,omitempty"`
	Delivery string             `json:"delivery,omitempty"`
	Event    string             `json:"event,omitempty"`
	Sentence string             `json:"sentence"`
}

type dateBreak struct {
	Kind     string  `json:"kind"`
	Task     string  `json:"task,omitempty"`
	Delivery string  `json:"delivery,omitempty"`
	Limit    *moment `json:"limit"`
	Actual   *moment `json:"actual"`
	Sentence string  `json:"sentence"`
	Remedy   string  `json:"remedy"`
}

type chainStep struct {
	Task     string  `json:"task,omitempty"`
	Delivery string  `json:"delivery,omitempty"`
	Start    *moment `json:"start"`
	Reason   reason  `json:"reason"`
}

type stretch struct {
	From *moment `json:"from"`
	To   *moment `json:"to"`
}

// floats are the late dates and floats of a task.
type floats struct {
	LateStart  *moment            `json:"late_start"`
	LateFinish *moment            `json:"late_finish,omitempty"`
	TooLate    bool               `json:"too_late,omitempty"`
	TotalFloat *calendars.Minutes `json:"total_float"`
	FreeFloat  *calendars.Minutes `json:"free_float"`
	CrewFloat  *figure            `json:"crew_float,omitempty"`
	Phantom    *figure            `json:"phantom_float,omitempty"`
	OnChain    bool               `json:"on_chain"`
}

type taskDates struct {
	ID       string   `json:"id"`
	Name     string   `json:"name"`
	Zones    []string `json:"zones"`
	Stage    string   `json:"stage"`
	Optional bool     `json:"optional,omitempty"`
	Dropped  bool     `json:"dropped,omitempty"`
	Start    *moment  `json:"start"`
	Finish   *moment  `json:"finish"`
	Done     *moment  `json:"done"`
	Signed   *moment  `json:"signed,omitempty"`
	*soFar
	floats
	Crew     map[string]int `json:"crew,omitempty"`
	Machines map[string]int `json:"machines,omitempty"`
	Work     []stretch      `json:"work"`
	Why      []reason       `json:"why"`
	Sentence string         `json:"sentence"`
}

// soFar is what has happened to a task.
type soFar struct {
	State     string             `json:"state"`
	Paused    bool               `json:"paused,omitempty"`
	Left      *calendars.Minutes `json:"left,omitempty"`
	HoldPoint string             `json:"hold_point,omitempty"`
}

type deliveryDates struct {
	ID      string  `json:"id"`
	What    string  `json:"what"`
	Out     bool    `json:"out,omitempty"`
	Arrives *moment `json:"arrives"`
	Planned *moment `json:"planned,omitempty"`
	State   string  `json:"state,omitempty"`
	Unload  stretch `json:"unload"`
	floats
	LateArrival *moment  `json:"late_arrival"`
	KeepUntil   *moment  `json:"keep_until,omitempty"`
	Why         []reason `json:"why"`
	Sentence    string   `json:"sentence"`
}

type reason struct {
	Kind      string             `json:"kind"`
	Task      string             `json:"task,omitempty"`
	Delivery  string             `json:"delivery,omitempty"`
	Given     string             `json:"given,omitempty"`
	Rule      string             `json:"rule,omitempty"`
	Zone      string             `json:"zone,omitempty"`
	Crew      string             `json:"crew,omitempty"`
	Machine   string             `json:"machine,omitempty"`
	Closed    string             `json:"closed,omitempty"`
	Link      string             `json:"link,omitempty"`
	Lag       *calendars.Minutes `json:"lag,omitempty"`
	Cure      *calendars.Minutes `json:"cure,omitempty"`
	Within    *calendars.Minutes `json:"within,omitempty"`
	HoldPoint bool               `json:"hold_point,omitempty"`
	Event     *moment            `json:"event,omitempty"`
	Until     *moment            `json:"until,omitempty"`
	Sentence  string             `json:"sentence"`
}

// The names of kinds, by their number.
var (
	scopes     = [...]string{schedule.Logic: "logic", schedule.Crews: "crews"}
	breakKinds = [...]string{
		schedule.BreakHandover: "handover", schedule.BreakBy: "by", schedule.BreakKeep: "keep", schedule.BreakWaits: "waits",
		schedule.BreakWithin: "within",
	}
	reasonKinds = [...]string{
		schedule.ByOpening: "opening", schedule.ByNotBefore: "not_before", schedule.ByGiven: "given",
		schedule.ByLink: "link", schedule.ByRule: "rule", schedule.ByWayIn: "way_in",
		schedule.ByDelivery: "delivery", schedule.ByArrival: "arrival", schedule.ByWithin: "within",
		schedule.ByClosedHours: "closed_hours", schedule.ByUnbroken: "unbroken",
		schedule.ByCrew: "crew", schedule.ByMachine: "machine", schedule.ByZone: "zone", schedule.ByGate: "gate", schedule.ByAlone: "alone",
		schedule.ByNow: "now", schedule.ByLog: "log",
	}
	closedKinds = [...]string{
		schedule.ClosedNobody: "", schedule.ClosedSite: "site", schedule.ClosedPlace: "place", schedule.ClosedGate: "gate",
		schedule.ClosedLoud: "loud_hours", schedule.ClosedCrew: "crew", schedule.ClosedMachine: "machine",
		schedule.ClosedWet: "wet", schedule.ClosedTogether: "together",
	}
)
