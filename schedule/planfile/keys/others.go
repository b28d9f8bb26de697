package keys

// Measure is a measure.
var Measure = measureObject()

func measureObject() *Object {
	o := object("a measure",
		Key{Name: "longer", Means: "the site stays open longer on a date", Example: "{on: 2027-06-08, to: 20:00}",
			Value: keysOf(Longer)},
		Key{Name: "people", Means: "more people, by crew, on the dates under on", Example: "{masons: 2}",
			Value: crewOf, With: []string{"on"}},
		Key{Name: "machine", Means: "one more of a machine, in the time under span", Example: "winch",
			Value: id("a machine"), With: []string{"span"}},
		Key{Name: "earlier", Means: "a delivery comes earlier, by the time under by", Example: "granite",
			Value: id("a delivery"), With: []string{"by"}},
		Key{Name: "overlap", Means: "of two linked tasks the second may begin sooner, by the time under by",
			Example: "[footing, wall]", Value: filled(id("a task")), With: []string{"by"}},
		Key{Name: "drop", Means: "a task is left out", Example: "shells", Value: id("a task")},
		Key{Name: "on", Means: "the dates of people", Example: "[2027-06-08, 2027-06-09]", Value: filled(date),
			With: []string{"people"}},
		Key{Name: "span", Means: "the time of machine", Example: "2027-06-09 07:00 to 2027-06-09 12:00", Value: span,
			With: []string{"machine"}},
		Key{Name: "by", Means: "by how much: of earlier on the clock, of overlap in working time", Example: "2h",
			Value: wait},
		required(Key{Name: "cost", Means: "what it costs, beside the hours and hires that rates count", Example: "400",
			Value: money}),
		Key{Name: "why", Means: "what is meant, for the list of ways", Example: "the north pads first", Value: text},
	)
	o.OneOf = []string{"longer", "people", "machine", "earlier", "overlap", "drop"}
	return o
}

// Longer is a longer day.
var Longer = object("longer hours",
	required(Key{Name: "on", Means: "the date", Example: "2027-06-08", Value: date}),
	required(Key{Name: "to", Means: "until when", Example: "20:00", Value: clock}),
)

// format is the form of a file; a newer turflast may write a newer one.
var format = Key{Name: "format", Means: "the form of this file, 1 so far", Example: "1", Value: count("forms", 1)}

// WhatIf is a what-if file.
var WhatIf = object("the what-if",
	format,
	required(Key{Name: "name", Means: "its name, in comparisons", Example: "Stone late", Value: text}),
	Key{Name: "note", Means: "what it is about", Example: "the quarry rang on Monday", Value: text},
	required(Key{Name: "changes", Means: "changes as turflast help whatif has them, in order",
		Example: "[stone 2d later]", Value: filled(text)}),
)

// Prices is a price list.
var Prices = pricesObject()

func pricesObject() *Object {
	o := object("the price list",
		format,
		Key{Name: "name", Means: "its name", Example: "Prices of June", Value: text},
		Key{Name: "note", Means: "what it is about", Example: "as agreed with the show office", Value: text},
		Key{Name: "running", Means: "what each hour of site time costs, from the opening to the last finish", Example: "60",
			Value: money},
		Key{Name: "late", Means: "what each hour of it after the hand-over costs, beside running", Example: "250",
			Value: money},
		Key{Name: "tasks", Means: "what each hour that a task takes less costs, by task",
			Example: "{wall: {shortest: 6h, hour: 60}}", Value: named(id("a task"), keysOf(TaskPrice))},
	)
	o.AnyOf = []string{"running", "late", "tasks"}
	return o
}

// TaskPrice is the price of a task's hours.
var TaskPrice = object("the price of a task",
	required(Key{Name: "shortest", Means: "the shortest working time that money can buy", Example: "6h", Value: work}),
	required(Key{Name: "hour", Means: "what each hour less costs", Example: "60", Value: money}),
	Key{Name: "why", Means: "how it is done", Example: "a second gang in the evening", Value: text},
)
