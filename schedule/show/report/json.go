package report

import (
	"encoding/json"
	"io"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Format and Version name the shape that [Report.JSON] writes. The version goes
// up when a key changes its meaning or goes away; new keys may come any time.
const (
	Format  = "turflast.programme"
	Version = 1
)

// JSON writes the programme as one JSON object. Its keys are the words of the
// plan file. Moments are RFC 3339 with the site's offset, null when there is
// none; lengths are whole minutes; ids are the plan's. Keys that say nothing of
// an item are left out.
//
//	format                         "turflast.programme"
//	version                        1
//	garden                         name
//	scope                          "logic" (hands unlimited) or "crews"
//	timezone                       tz database name
//	window.opens                   moment
//	window.handover                moment
//	window.aim                     moment
//	as_at                          moment that the plan stands at by its site log; left out as planned
//	met                            true when every date is met
//	finish                         moment when the last required task is done
//	margin.minutes                 site time from the finish to the hand-over, negative when late
//	margin.clock                   true when the lateness is clock time, the site being closed
//	aim_margin.minutes             the same to the aim
//	aim_margin.clock               likewise
//	sentence                       the margin in words
//	verdict                        the verdict in words
//	blocked                        why some work has no place, in words
//	bound                          moment before which the last required task can't be done, proven; crews only
//	overfull.crew                  id; what is over-full if the hand-over is to be met, else if the bound is to be bettered
//	overfull.machine               id
//	overfull.zone                  id, its room is
//	overfull.gate                  true when the gate is
//	overfull.alone                 id of a task, time that a rule keeps for it is
//	overfull.from                  moment
//	overfull.to                    moment
//	overfull.until                 moment by which the last required task would be done
//	overfull.needed                minutes of people, machines or places; 0 when no such sum says it
//	overfull.there                 likewise
//	overfull.tasks[]               id, of those that need it
//	overfull.deliveries[]          id, likewise
//	overfull.sentence              the same in words
//	moves[].task                   id of a task whose start differs from the baseline's
//	moves[].was                    moment, null when it was left out
//	moves[].now                    moment, null when it is left out
//	moves[].sentence               the same in words
//	site_log[].kind                "out_of_sequence", "kept_apart", "overdue", "refused", "conflict" or "unknown"
//	site_log[].task                id
//	site_log[].delivery            id
//	site_log[].event               id, of the log
//	site_log[].sentence            what the log says beside the dates that it gives
//	breaks[].kind                  "handover", "by", "keep" or "waits"
//	breaks[].task                  id
//	breaks[].delivery              id
//	breaks[].limit                 moment
//	breaks[].actual                moment
//	breaks[].sentence              what breaks, by how much
//	breaks[].remedy                what to do
//	handover_chain[].task          id
//	handover_chain[].delivery      id
//	handover_chain[].start         moment
//	handover_chain[].reason        a reason, what it waited for
//	tasks[].id                     id
//	tasks[].name                   name
//	tasks[].zones[]                id
//	tasks[].stage                  stage
//	tasks[].optional               true when it may be left out
//	tasks[].dropped                true when it is left out
//	tasks[].start                  moment
//	tasks[].finish                 moment, of the work
//	tasks[].done                   moment, cure and hold point included
//	tasks[].signed                 moment when the hold point is over
//	tasks[].state                  "in_hand" or "finished", by the site log; left out before it is started
//	tasks[].paused                 true when nobody is at it
//	tasks[].left                   minutes of work left for those at it
//	tasks[].hold_point             "open", "signed" or "failed", once the work is finished
//	tasks[].late_start             latest start that meets every date; null when nothing limits it
//	tasks[].late_finish            likewise
//	tasks[].too_late               true when no start is early enough to meet every date
//	tasks[].total_float            minutes of its own hours; null when they have no number
//	tasks[].free_float             likewise
//	tasks[].crew_float             minutes that it may slip in the order of hands; null when they have no number; crews only
//	tasks[].phantom_float          the part of total_float beyond it
//	tasks[].on_chain               true when it is on the hand-over chain
//	tasks[].crew.*                 heads at work, by crew id
//	tasks[].machines.*             count, by machine id
//	tasks[].work[].from            moment
//	tasks[].work[].to              moment
//	tasks[].why[]                  a reason, what fixes the start; the driver first
//	tasks[].sentence               the same in words
//	deliveries[].id                id
//	deliveries[].what              what comes
//	deliveries[].out               true for a collection
//	deliveries[].arrives           moment
//	deliveries[].planned           the plan's booking, when the programme books it otherwise
//	deliveries[].state             "arrived", "unloading", "unloaded" or "refused", by the site log
//	deliveries[].unload.from       moment
//	deliveries[].unload.to         moment
//	deliveries[].late_arrival      latest booking at which every date that hangs on it holds; null when nothing limits it
//	deliveries[].late_start        latest start of the unloading that meets every date
//	deliveries[].too_late          true when no start is early enough
//	deliveries[].total_float       minutes, as for tasks
//	deliveries[].free_float        likewise
//	deliveries[].crew_float        likewise
//	deliveries[].phantom_float     likewise
//	deliveries[].on_chain          true when it is on the hand-over chain
//	deliveries[].keep_until        moment, living stock only
//	deliveries[].why[]             a reason
//	deliveries[].sentence          the same in words
//
// A reason is an object:
//
//	reason.kind          "opening", "not_before", "given", "link", "rule", "way_in", "delivery", "arrival",
//	                     "within", "closed_hours", "unbroken", "crew", "machine", "zone", "gate" or
//	                     "alone" (time that a rule keeps for one of two)
//	reason.task          id of the other task
//	reason.delivery      id of the other delivery
//	reason.given         id
//	reason.rule          the rule as written
//	reason.zone          id
//	reason.crew          id
//	reason.machine       id
//	reason.closed        "site", "place", "gate", "loud_hours", "crew", "machine", "wet" or "together"
//	reason.link          "finish-start", "start-start", "finish-finish" or "start-finish"
//	reason.lag           minutes of open time, negative for a lead
//	reason.cure          minutes on the clock
//	reason.within        minutes on the clock
//	reason.hold_point    true when the other task's hold point is what holds
//	reason.event         moment of the other thing
//	reason.until         moment that this allows
//	reason.sentence      the clause in words
//
// The error is the writer's.
func (r *Report) JSON(out io.Writer) error { return encode(out, r.object()) }

func encode(out io.Writer, v any) error {
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// writeJSON writes one object, indented.
func writeJSON(out io.Writer, v any) error {
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// moment is an instant as JSON shows it.
type moment struct {
	at  calendars.Instant
	loc *time.Location
}

// MarshalJSON gives RFC 3339, or null for what isn't on the time line.
func (m moment) MarshalJSON() ([]byte, error) {
	if !m.at.IsReal() {
		return []byte("null"), nil
	}
	return m.at.In(m.loc).AppendFormat(nil, `"`+time.RFC3339+`"`), nil
}

func (r *Report) moment(t calendars.Instant) *moment {
	return &moment{t, r.plan.Site.Location}
}

// said is the moment, or nil when there is none to show.
func (r *Report) said(t calendars.Instant) *moment {
	if t == 0 {
		return nil
	}
	return r.moment(t)
}

// figure is a float that is null when it has no number.
type figure calendars.Minutes

// MarshalJSON gives the minutes, or null for those that have no number.
func (f figure) MarshalJSON() ([]byte, error) {
	return json.Marshal(floatMinutes(calendars.Minutes(f)))
}

// floatMinutes is a float, or nil when it has no number.
func floatMinutes(m calendars.Minutes) *calendars.Minutes {
	if m == schedule.NoFloat || m == schedule.FreeRange {
		return nil
	}
	return &m
}
