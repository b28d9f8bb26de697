package keys

// Plan is the plan file.
var Plan = object("the plan",
	required(Key{Name: "garden", Means: "the garden's name, on every page", Example: "Tidewall Court", Value: text}),
	Key{Name: "currency", Means: "in which all money of the plan is", Example: "GBP", Value: currency},
	required(Key{Name: "site", Means: "the window, the hours, the gate and the weather", Value: keysOf(Site),
		Example: "{timezone: Europe/Dublin, opens: 2027-06-03 06:30, handover: 2027-06-11 16:00, " +
			"hours: {mon-sun: 07:00-18:00}}"}),
	Key{Name: "stages", Means: "kinds of work of this plan's own, beside the built-in ones", Example: "[lighting]",
		Value: list(id("a stage"))},
	required(Key{Name: "zones", Means: "the parts of the plot, and places off site, by ids that the plan chooses",
		Example: "{pond: {name: Pond edge, people: 3}}", Value: named(id("a zone"), keysOf(Zone))}),
	Key{Name: "crews", Means: "who works: people of one trade each", Example: "{divers: {name: Divers, people: 2}}",
		Value: named(id("a crew"), keysOf(Crew))},
	Key{Name: "machines", Means: "cranes, telehandlers, saws: what work and lorries share",
		Example: "{saw: {name: Wet saw, count: 1}}", Value: named(id("a machine"), keysOf(Machine))},
	Key{Name: "givens", Means: "what others provide from a moment on: power, water, a permit",
		Example: "{water: {what: water at the plot, from: 2027-06-04 09:00}}",
		Value:   named(id("a given"), keysOf(Given))},
	Key{Name: "deliveries", Means: "the lorries that come and go",
		Example: "{gravel: {what: gravel, arrives: 2027-06-04 07:00, unload: 20m}}",
		Value:   named(id("a delivery"), keysOf(Delivery))},
	Key{Name: "rules", Means: "what holds between kinds of work: one stage before another, or apart from it",
		Example: "[paving before planting]", Value: list(text)},
	Key{Name: "daily", Means: "duties that take people off a crew on every day",
		Example: "{sweeping: {crew: {gardeners: 1}, at: 15:00-15:30, from: 2027-06-08, to: 2027-06-09}}",
		Value:   named(id("a duty"), keysOf(Duty))},
	required(Key{Name: "tasks", Means: "the work",
		Example: "{edge: {zone: shingle, stage: soil, crew: {gardeners: 1}, takes: 2h}}",
		Value:   named(id("a task"), keysOf(Task))}),
	Key{Name: "desk", Means: "what is to be settled before the build, or after it: dates that hold no work",
		Example: "{gravel-sample: {what: sample of the gravel approved, kind: sample, by: 8w before opening}}",
		Value:   named(id("an item of the desk list"), keysOf(Desk))},
	Key{Name: "measures", Means: "what could be bought to win time", Example: "[{drop: shells, cost: 0}]",
		Value: list(keysOf(Measure))},
	Key{Name: "answered", Means: "what turflast review has asked, and needn't ask again",
		Example: "[{asked: watering, why: the client waters from the first day on}]", Value: list(keysOf(Answer))},
)

// Site is the site.
var Site = object("the site",
	required(Key{Name: "timezone", Means: "the time zone of every time in the plan", Example: "Europe/London",
		Value: tzName}),
	required(Key{Name: "opens", Means: "when the gate opens to the build", Example: "2027-06-03 07:00", Value: moment}),
	required(Key{Name: "handover", Means: "by when all required work must be done; nothing moves it",
		Example: "2027-06-11 15:00", Value: moment}),
	Key{Name: "aim", Means: "an earlier finish that the lead works to", Example: "2027-06-11 11:00", Value: moment},
	Key{Name: "holidays", Means: "the region whose public holidays close the site, the gate and the crews",
		Example: "IE", Value: region},
	Key{Name: "holidays_add", Means: "closed days beside the region's", Example: "[{on: 2027-06-10, why: show preview}]",
		Value: list(keysOf(HolidayAdd))},
	Key{Name: "holidays_drop", Means: "holidays of the region that are worked here", Example: "[2027-06-07]",
		Value: list(date)},
	required(Key{Name: "hours", Means: "when the site is open, by weekday; a day that isn't named is closed",
		Example: "{mon-fri: 07:00-12:00 12:30-18:00, sat: 08:00-16:00}", Value: weekly}),
	Key{Name: "hours_on", Means: "hours of dates that differ", Example: "{2027-06-06: 09:00-15:00}", Value: hoursOn},
	Key{Name: "closed", Means: "spans in which the site is closed, and its gate",
		Example: "[{from: 2027-06-09 11:00, to: 2027-06-09 12:00, why: show inspection}]", Value: closures},
	Key{Name: "loud_hours", Means: "when loud tasks may work; always in site hours without it",
		Example: "{mon-fri: 08:00-17:00}", Value: weekly},
	Key{Name: "gate", Means: "how many lorries unload at once, and when; any number in site hours without it",
		Example: "{at_once: 1, hours: {mon-sun: 06:00-10:00}}", Value: keysOf(Gate)},
	Key{Name: "wet_days", Means: "the chances of wet days, and how long dry work waits on the morning after",
		Example: "{after_dry: 0.3, after_wet: 0.55, dries: 2h}", Value: keysOf(WetDays)},
	Key{Name: "windy_days", Means: "the chances of windy days, on which calm work stands still",
		Example: "{after_calm: 0.15, after_windy: 0.4}", Value: keysOf(WindyDays)},
)

// What several objects have.
var (
	weekly   = named(days, openings)
	hoursOn  = named(date, openings)
	closures = list(keysOf(Closure))
)

// HolidayAdd is an entry of holidays_add.
var HolidayAdd = object("an added holiday",
	required(Key{Name: "on", Means: "its date", Example: "2027-06-10", Value: date}),
	required(Key{Name: "why", Means: "its name, or why it is closed", Example: "show preview", Value: text}),
)

// Closure is an entry of closed.
var Closure = object("a closure",
	required(Key{Name: "from", Means: "when it begins", Example: "2027-06-09 11:00", Value: moment}),
	required(Key{Name: "to", Means: "when it ends", Example: "2027-06-09 12:00", Value: moment}),
	Key{Name: "why", Means: "the reason, for the sheets", Example: "show inspection", Value: text},
)

// Gate is the site's gate.
var Gate = object("the gate",
	required(Key{Name: "at_once", Means: "how many lorries may unload at the same time", Example: "1",
		Value: count("lorries", 1)}),
	Key{Name: "hours", Means: "when it is open, by weekday; the site's whole calendar without it",
		Example: "{mon-sun: 06:00-10:00}", Value: weekly},
	Key{Name: "hours_on", Means: "hours of dates that differ", Example: "{2027-06-06: 09:00-11:00}", Value: hoursOn,
		With: []string{"hours"}},
	Key{Name: "closed", Means: "spans in which it is closed",
		Example: "[{from: 2027-06-04 06:00, to: 2027-06-04 07:00}]", Value: closures, With: []string{"hours"}},
)

// WetDays is the rain.
var WetDays = object("wet days",
	required(Key{Name: "after_dry", Means: "the chance that the day after a dry one is wet", Example: "0.3",
		Value: chance}),
	required(Key{Name: "after_wet", Means: "the chance that the day after a wet one is wet", Example: "0.55",
		Value: chance}),
	required(Key{Name: "dries", Means: "how long, on the clock, dry work waits from the first opening of the day after",
		Example: "2h", Value: work}),
)

// WindyDays is the wind.
var WindyDays = object("windy days",
	required(Key{Name: "after_calm", Means: "the chance that the day after a calm one is windy", Example: "0.15",
		Value: chance}),
	required(Key{Name: "after_windy", Means: "the chance that the day after a windy one is windy", Example: "0.4",
		Value: chance}),
)
