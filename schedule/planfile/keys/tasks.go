package keys

import "build.example/turflast/schedule"

// Task is a task.
var Task = taskObject()

func taskObject() *Object {
	o := object("a task", append(append(taskWork(), taskOrder()...), taskWays()...)...)
	o.OneOf = []string{"takes", "person_hours", "amount"}
	return o
}

// taskWork is what a task is, and who does it.
func taskWork() []Key {
	return []Key{
		{Name: "name", Means: "its name, on pages; its id without it", Example: "Raise the larch frame", Value: text},
		{Name: "short", Means: "a name of at most 24 characters, for bars and small screens", Example: "raise frame",
			Value: text},
		required(Key{Name: "zone", Means: "where it is: a zone, or a list of zones of the plot", Example: "shingle",
			Value: idOrList("a zone")}),
		required(Key{Name: "stage", Means: "the kind of work, built in or of stages", Example: "structure",
			Value: id("a stage")}),
		{Name: "crew", Means: "who does it: people by crew, or a range from which the programme chooses",
			Example: "{masons: 2..4}", Value: crewRange},
		{Name: "machines", Means: "with what: how many of each machine, standing where the task is unless stands says",
			Example: "{winch: {count: 1, stands: gatehouse}}", Value: machines},
		{Name: "takes", Means: "its working time, likeliest; or give person_hours, or amount with rate", Example: "9h",
			Value: work},
		{Name: "person_hours", Means: "its work, shared by all its people", Example: "37.5", Value: hours},
		{Name: "amount", Means: "how much there is to do, with a unit", Example: "120 plants", Value: amount,
			With: []string{"rate"}},
		{Name: "rate", Means: "how much of it a person does in an hour, in the same unit", Example: "12 plants/person-hour",
			Value: pace, With: []string{"amount"}},
		{Name: "spread", Means: "the best and worst working time around the likeliest", Example: "{best: 5h, worst: 20h}",
			Value: keysOf(Spread)},
	}
}

// taskOrder is what a task waits for, and when it may be.
func taskOrder() []Key {
	return []Key{
		{Name: "after", Means: "the tasks and givens that it comes after, by id or with a kind of link and a wait",
			Example: "[footing, {task: tie-nets, link: start-start, lag: 2h}]",
			Value:   list(or(id("a task or given"), keysOf(Link)))},
		{Name: "uses", Means: "the deliveries that it uses: it starts once they are unloaded", Example: "[granite]",
			Value: list(id("a delivery"))},
		{Name: "cure", Means: "how long after its finish what follows must wait: drying, curing, settling",
			Example: "24h", Value: wait},
		{Name: "not_before", Means: "the earliest start", Example: "2027-06-05 07:00", Value: moment},
		{Name: "by", Means: "a date of its own by which its work must be done", Example: "2027-06-10 17:00",
			Value: moment},
		{Name: "optional", Means: "it may be left out to meet a date", Example: "true", Value: flag},
		{Name: "drop_order", Means: "which goes first of what is optional: the lowest number", Example: "1",
			Value: count("turns", 1),
			With:  []string{"optional"}},
		{Name: "except", Means: "rules that it is excused from, and why",
			Example: `[{rule: groundworks before structure, why: it stands on piles}]`, Value: list(keysOf(Except))},
		{Name: "hold_point", Means: "what must be signed before what follows starts: its text, or that with times",
			Example: "engineer signs the frame", Value: or(text, keysOf(HoldPoint))},
	}
}

// taskWays is how a task works, and what it does to those around it.
func taskWays() []Key {
	return []Key{
		{Name: "unbroken", Means: "it must be done in one stretch", Example: "true", Value: flag},
		{Name: "stays", Means: "it keeps its machines and its room through its pauses", Example: "true", Value: flag},
		{Name: "loud", Means: "it works only in the site's loud hours", Example: "true", Value: flag},
		{Name: "on_boards", Means: "it may go on behind a way in that is closed", Example: "true", Value: flag},
		{Name: "closes_way_in", Means: "it comes after all work in the zones behind it (true, as turf does), or closes " +
			"the way in meanwhile and so long after", Example: "24h", Value: or(flag, wait)},
		{Name: "clears", Means: "zones in which nobody else works meanwhile", Example: "[gatehouse]",
			Value: list(id("a zone"))},
		{Name: "apart", Means: "tasks that never go on at the same time", Example: "[plant]", Value: list(id("a task"))},
		{Name: "weather", Means: "what it needs: dry, calm (no wind), mild (no frost or heat)", Example: "[dry, calm]",
			Value: list(oneOf("dry", "calm", "mild"))},
		{Name: "dries", Means: "how long, on the clock, it waits on the morning after a wet day, in place of the site's",
			Example: "4h", Value: work, With: []string{"weather"}},
		{Name: "hazards", Means: "what can hurt people, for the cautions on the sheets", Example: "[lifting, height]",
			Value: list(oneOf(schedule.Hazards()...))},
		{Name: "done_when", Means: "how one sees that it is done, for the run sheet", Example: "plumb to 3 mm",
			Value: text},
		{Name: "note", Means: "what else the crew should know, for the run sheet", Example: "bring the long level",
			Value: text},
	}
}

// Spread is the spread of a task's working time.
var Spread = object("a spread",
	required(Key{Name: "best", Means: "the shortest", Example: "5h", Value: work}),
	required(Key{Name: "worst", Means: "the longest", Example: "20h", Value: work}),
)

// Link is an entry of after.
var Link = object("a link",
	required(Key{Name: "task", Means: "the task that it comes after", Example: "footing", Value: id("a task")}),
	Key{Name: "link", Means: "which end of it holds which end of this one; finish-start without it",
		Example: "start-start", Value: oneOf(linkNames()...)},
	Key{Name: "lag", Means: "a wait in open time of this task's place; a lead when negative", Example: "-1h",
		Value: lag},
	Key{Name: "cure", Means: "a wait on the clock, in place of the other's own; not with lag", Example: "36h",
		Value: wait},
	Key{Name: "within", Means: "the longest from the one event to the other", Example: "4d", Value: wait},
)

// Except is an entry of except.
var Except = object("an exception",
	required(Key{Name: "rule", Means: "the rule, as it stands in rules, or way in", Example: "way in", Value: text}),
	required(Key{Name: "why", Means: "why it doesn't hold here", Example: "no stone near this bed", Value: text}),
)

// Answer is an entry of answered.
var Answer = object("an answer",
	required(Key{Name: "asked", Means: "the question, by the name that turflast review gives it", Example: "clear ground",
		Value: oneOf(schedule.Questions()...)}),
	Key{Name: "about", Means: "the tasks, deliveries or crews of which it is answered; all without it",
		Example: "[footing]", Value: idOrList("a task, delivery or crew")},
	required(Key{Name: "why", Means: "the answer", Example: "the crane lifts nothing over the plot", Value: text}),
)

// HoldPoint is a hold point with more than its text.
var HoldPoint = object("a hold point",
	required(Key{Name: "what", Means: "what is checked, by whom", Example: "engineer signs the frame", Value: text}),
	Key{Name: "takes", Means: "how long it takes: m and h of open time of the task's place, or on the clock",
		Example: "30m", Value: wait},
	Key{Name: "on_the_clock", Means: "it runs from the finish through the night, and needs nobody: a soak test",
		Example: "true", Value: flag, Brings: []string{"takes"}},
	Key{Name: "by_appointment", Means: "the only moments at which it can begin",
		Example: "[2027-06-08 10:00, 2027-06-09 10:00]", Value: filled(moment)},
	notice,
	Key{Name: "fails", Means: "the chance that it fails, and what putting it right takes",
		Example: "{chance: 0.1, right: 2h}", Value: keysOf(Fails)},
)

// Fails is how a hold point may fail.
var Fails = object("a failed sign-off",
	required(Key{Name: "chance", Means: "the chance that it fails", Example: "0.1", Value: chance}),
	required(Key{Name: "right", Means: "the work to put it right", Example: "2h", Value: work}),
)
