package keys

import "build.example/turflast/schedule"

// Zone is a zone.
var Zone = object("a zone",
	Key{Name: "name", Means: "its name, on pages; its id without it", Example: "Rear terrace and rill", Value: text},
	Key{Name: "people", Means: "the most people, and places of machines, at once; no limit without it", Example: "8",
		Value: count("people", 1)},
	Key{Name: "way_in", Means: "the zones that are crossed to reach it", Example: "[shingle]", Value: list(id("a zone"))},
	Key{Name: "off_site", Means: "it is a yard or workshop, not part of the plot: it needs neither gate nor way in",
		Example: "true", Value: flag, Brings: []string{"from", "hours"}},
	Key{Name: "from", Means: "the earliest work there; off site only, where it must be given",
		Example: "2027-05-17 08:00", Value: moment, With: []string{"off_site"}},
	Key{Name: "hours", Means: "its hours by weekday; off site only, where they must be given",
		Example: "{mon-fri: 08:00-17:00}", Value: weekly, With: []string{"off_site"}},
	Key{Name: "hours_on", Means: "hours of dates that differ; off site only", Example: "{2027-05-22: 09:00-12:00}",
		Value: hoursOn, With: []string{"off_site"}},
	Key{Name: "closed", Means: "spans in which it is closed; off site only",
		Example: "[{from: 2027-05-26 08:00, to: 2027-05-27 08:00, why: stocktaking}]", Value: closures,
		With: []string{"off_site"}},
)

// notice is the key notice of several objects.
var notice = Key{Name: "notice", Example: "1d", Value: wait,
	Means: "how long before it must be called to come at another time"}

// Crew is a crew.
var Crew = object("a crew",
	Key{Name: "name", Means: "its name, on pages; its id without it", Example: "Stone masons", Value: text},
	required(Key{Name: "people", Means: "how many it has on a usual day", Example: "6", Value: count("people", 0)}),
	Key{Name: "people_on", Means: "how many it has on dates that differ", Example: "{2027-06-08: 6, 2027-06-09: 8}",
		Value: named(date, count("people", 0))},
	Key{Name: "hours", Means: "its hours by weekday; the site's whole calendar without them",
		Example: "{mon-fri: 07:00-12:00 12:30-17:00}", Value: weekly},
	Key{Name: "hours_on", Means: "hours of dates that differ", Example: "{2027-06-05: 08:00-12:00}", Value: hoursOn},
	Key{Name: "closed", Means: "spans in which nobody of it works",
		Example: "[{from: 2027-06-10 12:00, to: 2027-06-10 13:00, why: briefing}]", Value: closures},
	Key{Name: "away", Means: "when some of it, or all, are away",
		Example: "[{on: 2027-06-04, people: 1}, {from: 2027-06-09 09:00, to: 2027-06-09 11:00}]",
		Value:   list(keysOf(Away))},
	Key{Name: "rate", Means: "what a person costs an hour", Example: "46", Value: money},
	Key{Name: "overtime", Means: "what a person costs an hour beyond the weekly hours, in all", Example: "69.50",
		Value: money, With: []string{"rate"}},
	notice,
	Key{Name: "turns_out", Means: "the chance that each of it comes: volunteers", Example: "0.8", Value: chance},
)

// Away is an entry of away.
var Away = &Object{
	Of:    "an absence",
	OneOf: []string{"on", "from"},
	names: []string{"on", "from", "to", "people"},
	Keys: []Key{
		{Name: "on", Means: "the whole day", Example: "2027-06-04", Value: date},
		{Name: "from", Means: "when it begins; in place of on", Example: "2027-06-09 09:00", Value: moment,
			With: []string{"to"}},
		{Name: "to", Means: "when it ends", Example: "2027-06-09 11:00", Value: moment, With: []string{"from"}},
		{Name: "people", Means: "how many are away; all without it", Example: "1", Value: count("people", 1)},
	},
}

// Machine is a machine.
var Machine = object("a machine",
	Key{Name: "name", Means: "its name, on pages; its id without it", Example: "Telehandler", Value: text},
	required(Key{Name: "count", Means: "how many of it there are", Example: "2", Value: count("machines", 1)}),
	Key{Name: "ours", Means: "when it is ours; in all hours of the place it works in without it",
		Example: "[2027-06-03 07:00 to 2027-06-05 12:00]", Value: filled(span)},
	Key{Name: "places", Means: "the room that one takes in a zone, counted with its people", Example: "2",
		Value: count("places", 0)},
	Key{Name: "rate", Means: "what one costs an hour in use", Example: "55", Value: money},
	Key{Name: "hire", Means: "what one costs by whole days or weeks, in place of rate",
		Example: "{per: day, rate: 900, least: 1d, bringing: 250}", Value: keysOf(Hire)},
	notice,
)

// Hire is a hire of a machine.
var Hire = object("the hire of a machine",
	required(Key{Name: "per", Means: "whether days or weeks are paid", Example: "week", Value: oneOf("day", "week")}),
	required(Key{Name: "rate", Means: "what each of them costs", Example: "900", Value: money}),
	Key{Name: "least", Means: "the shortest hire: whole days, or whole weeks; one without it", Example: "2w",
		Value: wait},
	Key{Name: "bringing", Means: "what bringing and fetching cost together", Example: "250", Value: money},
)

// Given is a given.
var Given = object("a given",
	Key{Name: "what", Means: "what it is, on pages; its id without it", Example: "mains live at the plot", Value: text},
	required(Key{Name: "from", Means: "from when it is there", Example: "2027-06-04 12:00", Value: moment}),
)

// Delivery is a delivery.
var Delivery = object("a delivery",
	Key{Name: "what", Means: "what comes or goes, on pages; its id without it", Example: "64 m2 turf", Value: text},
	required(Key{Name: "arrives", Means: "when the lorry is booked at the gate", Example: "2027-06-04 06:30",
		Value: moment}),
	required(Key{Name: "unload", Means: "how long unloading takes, in one go, or that with who and what it needs",
		Example: "30m", Value: or(work, keysOf(Unload))}),
	Key{Name: "waits", Means: "how long the lorry stands for nothing; 30m without it", Example: "20m", Value: wait},
	Key{Name: "waiting_rate", Means: "what each hour beyond that costs", Example: "60", Value: money},
	Key{Name: "keep", Means: "how long living stock, or a fresh mix, lasts from lifting, cutting or batching",
		Example: "24h", Value: wait},
	Key{Name: "aged", Means: "how old it is at the booked arrival; 0m without it", Example: "6h", Value: wait,
		With: []string{"keep"}},
	Key{Name: "movable", Means: "between when the booking may be moved", Value: keysOf(Movable),
		Example: "{earliest: 2027-06-03 06:30, latest: 2027-06-05 07:00}"},
	Key{Name: "late", Means: "how late it may come: the chance, and by how much",
		Example: "{chance: 0.2, likely: 1h, worst: 1d}", Value: keysOf(Late)},
	Key{Name: "order_ahead", Means: "how long before it comes it must be ordered", Example: "6w", Value: wait},
	Key{Name: "order_after", Means: "the items of the desk list that are settled before it is ordered",
		Example: "[granite-sample]", Value: list(id("an item of the desk list")), With: []string{"order_ahead"}},
	Key{Name: "out", Means: "it is a collection: it goes out, after the tasks under after", Example: "true", Value: flag},
	Key{Name: "after", Means: "the tasks and givens that unloading waits for", Example: "[tie-nets]",
		Value: list(id("a task or given"))},
	notice,
)

// Desk is an item of the desk list.
var Desk = object("an item of the desk list",
	Key{Name: "what", Means: "what is to be settled, on pages; its id without it", Example: "three quotes for the gravel",
		Value: text},
	Key{Name: "kind", Means: "what it is; other without it", Example: "sample", Value: oneOf(schedule.DeskKinds()...)},
	Key{Name: "who", Means: "who sees to it", Example: "Ann", Value: text},
	Key{Name: "by", Means: "by when: a date, or so long before a delivery, a task or the opening of the site; " +
		"without it by the date to order what waits for it", Example: "3w before granite", Value: or(date, before)},
)

// Unload is an unloading.
var Unload = object("an unloading",
	required(Key{Name: "takes", Means: "how long it takes, in one go", Example: "45m", Value: work}),
	Key{Name: "crew", Means: "who unloads: people by crew", Example: "{masons: 2}", Value: crewOf},
	Key{Name: "machines", Means: "with what: how many of each machine", Example: "{winch: 1}", Value: machines},
)

// Who and what work takes.
var (
	crewOf    = named(id("a crew"), count("people", 1))
	crewRange = named(id("a crew"), or(count("people", 1), heads))
	machines  = named(id("a machine"), or(count("machines", 1), keysOf(MachineNeed)))
)

// MachineNeed is a need of a machine that stands elsewhere.
var MachineNeed = object("a machine that is needed",
	required(Key{Name: "count", Means: "how many", Example: "1", Value: count("machines", 1)}),
	required(Key{Name: "stands", Means: "the zone, or zones, where it stands and takes its room", Example: "gatehouse",
		Value: idOrList("a zone")}),
)

// Movable is how far a booking may move.
var Movable = object("a movable booking",
	required(Key{Name: "earliest", Means: "the earliest arrival that can be booked", Example: "2027-06-03 06:30",
		Value: moment}),
	required(Key{Name: "latest", Means: "the latest", Example: "2027-06-05 07:00", Value: moment}),
)

// Late is how late a delivery may come.
var Late = object("lateness",
	required(Key{Name: "chance", Means: "the chance that it comes late", Example: "0.2", Value: chance}),
	required(Key{Name: "likely", Means: "by how much it is then, most likely", Example: "1h", Value: wait}),
	required(Key{Name: "worst", Means: "by how much at the worst", Example: "2d", Value: wait}),
)

// Duty is a daily duty.
var Duty = object("a daily duty",
	required(Key{Name: "crew", Means: "who does it: people by crew", Example: "{gardeners: 1}", Value: crewOf}),
	required(Key{Name: "at", Means: "when, on each day", Example: "07:30-08:00", Value: stretch}),
	required(Key{Name: "from", Means: "its first day: a date, or the delivery from whose arrival on it is done",
		Example: "2027-06-09", Value: or(date, id("a delivery"))}),
	required(Key{Name: "to", Means: "its last day", Example: "2027-06-11", Value: date}),
)
