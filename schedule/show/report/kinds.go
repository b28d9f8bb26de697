package report

import (
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/beyond"
	"build.example/turflast/schedule/ask/cost"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/review"
	"build.example/turflast/schedule/ask/sturdier"
	"build.example/turflast/schedule/ask/whynot"
	"build.example/turflast/schedule/safety"
	"build.example/turflast/schedule/show/shape"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/baseline"
	"build.example/turflast/schedule/site/issue"
)

// taskState says how far the work of a task is.
type taskState uint8

// The states of a task that has been started.
const (
	taskInHand taskState = iota
	taskFinished
)

// holdState says how a hold point stands once the work is finished.
type holdState uint8

// The states of a hold point; noHold is that of a task without one.
const (
	noHold holdState = iota
	holdOpen
	holdSigned
	holdFailed
)

// lorryState says what has happened to a delivery.
type lorryState uint8

// The states of a delivery.
const (
	lorryAhead lorryState = iota
	lorryArrived
	lorryUnloading
	lorryUnloaded
	lorryRefused
)

// kinds are the names in JSON of the values of all enumerations, and what each means. A
// value with an empty name counts as empty, so omitempty leaves it out.
var kinds = shape.NewWords(
	is(schedule.Logic, "logic", "hands are unlimited"),
	is(schedule.Crews, "crews", "hands, machines and room are what the plan has"),

	is(schedule.BreakHandover, "handover", "a task is done, or a lorry unloaded, too late"),
	is(schedule.BreakBy, "by", "work is finished after the task's own date"),
	is(schedule.BreakKeep, "keep", "living stock is kept too long before a task is done"),
	is(schedule.BreakSentAway, "sent_away", "a lorry isn't begun in the opening of the gate in which it comes"),
	is(schedule.BreakWithin, "within", "the longest wait of a link is over"),

	is(cost.People, "people", "a crew, at its rate"),
	is(cost.Overtime, "overtime", "a crew, beyond its weekly hours"),
	is(cost.InUse, "in_use", "a machine by the hour"),
	is(cost.Hired, "hire", "a machine by the day or week"),
	is(cost.Waiting, "waiting", "a lorry that waits"),
	is(cost.Measures, "measures", "all that are taken"),

	is(whynot.Open, "open", "neither a programme nor a proof was found"),
	is(whynot.Had, "had", "the programme has it"),
	is(whynot.Found, "found", "another programme has it"),
	is(whynot.Without, "without", "it can be had if other optional work is left out"),
	is(whynot.Impossible, "impossible", "proven that no programme has it"),
	is(whynot.NoPlace, "no_place", "some work has no place at all"),

	is(whynot.Within, "within", "a longest wait between two activities"),
	is(whynot.Alone, "alone", "time kept apart for a task"),
	is(whynot.Room, "room", "how many people a zone holds"),
	is(whynot.GatePlaces, "gate", "how many lorries the gate takes at once"),
	is(whynot.Machines, "machines", "how many machines of a kind there are"),
	is(whynot.People, "people", "how many people a crew has"),
	is(whynot.CrewHours, "crew_hours", "when a crew is at work"),
	is(whynot.DryHours, "dry", "work that must be dry stands still in the wet"),
	is(whynot.CalmHours, "calm", "work that must be calm stands still in the wind"),
	is(whynot.MildHours, "mild", "work that must be mild stands still in frost and heat"),
	is(whynot.LoudHours, "loud_hours", "when loud work is allowed"),
	is(whynot.GateHours, "gate_hours", "when the gate is open"),
	is(whynot.ZoneHours, "zone_hours", "when a place off site is open"),
	is(whynot.Work, "work", "how long an activity takes"),
	is(whynot.Wait, "wait", "a wait on a link or of a rule"),
	is(whynot.Cure, "cure", "the cure of a task"),
	is(whynot.SignOff, "hold", "a hold point"),
	is(whynot.Start, "start", "before which an activity can't start: its own date, a given or a booking"),
	is(whynot.MachineHours, "slots", "when a machine is ours"),
	is(whynot.SiteHours, "site_hours", "when the site is open"),

	is(schedule.ByOpening, "opening", "the gate opens, or work off site may begin"),
	is(schedule.ByNotBefore, "not_before", "the task's own earliest date"),
	is(schedule.ByGiven, "given", "others provide it from then on"),
	is(schedule.ByLink, "link", "a link of the plan"),
	is(schedule.ByRule, "rule", "a rule on stages"),
	is(schedule.ByWayIn, "way_in", "the way in is taken after the work behind it"),
	is(schedule.ByDelivery, "delivery", "the unloading of what it uses"),
	is(schedule.ByArrival, "arrival", "an unloading waits for its lorry"),
	is(schedule.ByWithin, "within", "the longest wait to what follows"),
	is(schedule.ByClosedHours, "closed_hours", "nobody is open or at work"),
	is(schedule.ByUnbroken, "unbroken", "no stretch before is long enough"),
	is(schedule.ByCrew, "crew", "a crew is busy"),
	is(schedule.ByMachine, "machine", "a machine is busy"),
	is(schedule.ByZone, "zone", "a zone is full"),
	is(schedule.ByGate, "gate", "the gate is taken"),
	is(schedule.ByAlone, "alone", "time that a rule keeps for one of two"),
	is(schedule.ByNow, "now", "nothing starts before the moment of the site log"),
	is(schedule.ByLog, "log", "it happened then, by the site log"),
	is(schedule.ByChoice, "choice", "nothing: it could start sooner, everything else as it is"),

	is(schedule.Unproven, "", ""),
	is(schedule.ByChain, "chain", "links, waits, hours and slots alone prove it"),
	is(schedule.ByHands, "hands", "what can't go on at once, or is over-full, proves it"),
	is(schedule.BySearch, "search", "the search that found it, alone"),

	is(schedule.ClosedNobody, "", ""),
	is(schedule.ClosedSite, "site", "the site"),
	is(schedule.ClosedPlace, "place", "the place off site"),
	is(schedule.ClosedGate, "gate", "the gate"),
	is(schedule.ClosedLoud, "loud_hours", "the hours of loud work"),
	is(schedule.ClosedCrew, "crew", "a crew isn't at work"),
	is(schedule.ClosedMachine, "machine", "a machine isn't there"),
	is(schedule.ClosedWet, "wet", "a wet day, or it hasn't dried yet"),
	is(schedule.ClosedWindy, "windy", "a windy day, or windy hours"),
	is(schedule.ClosedHarsh, "harsh", "frost or great heat"),
	is(schedule.ClosedStop, "stop", "it stands still"),
	is(schedule.ClosedTogether, "together", "each is open at times, never all at once"),

	is(schedule.FinishStart, "finish-start", "from the other's finish to its start"),
	is(schedule.StartStart, "start-start", "from the other's start to its start"),
	is(schedule.FinishFinish, "finish-finish", "from the other's finish to its finish"),
	is(schedule.StartFinish, "start-finish", "from the other's start to its finish"),

	is(beyond.SiteOpen, "site", "the site open"),
	is(beyond.GateOpen, "gate", "the gate open"),
	is(beyond.PlaceOpen, "place", "a place off site open"),
	is(beyond.People, "people", "people of a crew"),
	is(beyond.Machine, "machine", "machines of a kind"),
	is(beyond.SignOff, "sign_off", "an appointment for a hold point"),

	is(taskInHand, "in_hand", "begun"),
	is(taskFinished, "finished", "the work is finished"),

	is(noHold, "", ""),
	is(holdOpen, "open", "it hasn't been inspected"),
	is(holdSigned, "signed", "it is signed"),
	is(holdFailed, "failed", "it was inspected and not signed"),

	is(lorryAhead, "", ""),
	is(lorryArrived, "arrived", "it is there"),
	is(lorryUnloading, "unloading", "its unloading has begun"),
	is(lorryUnloaded, "unloaded", "its unloading is over"),
	is(lorryRefused, "refused", "it was sent away"),

	is(wording.FailedSignOff, "failed_sign_off", "a sign-off or another check failed, and it isn't right since"),
	is(wording.OutOfSequence, "out_of_sequence", "started before what it follows was over"),
	is(wording.KeptApart, "kept_apart", "went on beside another against the plan"),
	is(wording.OverdueLorry, "overdue", "a delivery hasn't come"),
	is(wording.RefusedLorry, "refused", "a delivery was sent away and not booked again"),
	is(wording.AbsentMachine, "away", "a machine is broken, or hasn't come"),
	is(wording.ConflictEvent, "conflict", "an event can't be beside others and doesn't count"),
	is(wording.UnknownEvent, "unknown", "an event is of something that the plan hasn't got"),

	is(wording.FactHappened, "happened", "what has happened of it"),
	is(wording.FactWhere, "where", "until when, where, with whom and which machines"),
	is(wording.FactBefore, "before", "what must be done before"),
	is(wording.FactGate, "gate", "what comes or goes through the gate for it"),
	is(wording.FactAfter, "after", "what waits for it"),
	is(wording.FactDone, "done", "when it is done, and who signs it off"),
	is(wording.FactSlip, "slip", "how long it may slip before it hurts"),
	is(wording.FactWeather, "weather", "what it needs of the sky, and of loud hours"),
	is(wording.FactRoom, "room", "what it does to others' room"),
	is(wording.FactCare, "care", "its hazards"),
	is(wording.FactNote, "note", "the plan's own note"),
	is(wording.FactBreak, "break", "a date that it breaks"),

	is(sheets.Ahead, "ahead", "not begun, or a lorry that hasn't come"),
	is(sheets.InHand, "in_hand", "begun, or a lorry that is there"),
	is(sheets.Unsigned, "unsigned", "the work is finished, its hold point isn't signed"),
	is(sheets.Ticked, "ticked", "nothing more is to be told of it"),

	is(safety.LongShift, "long_shift", "a shift is too long"),
	is(safety.ShortRest, "short_rest", "the rest between two shifts is too short"),
	is(safety.NoDayOff, "no_day_off", "no day off in seven"),
	is(safety.LongWeek, "long_week", "seven days add up to too much"),

	is(review.Grave, "grave", "the garden or somebody may come to harm"),
	is(review.Worth, "worth_asking", "the programme may say what isn't so"),
	is(review.Consider, "consider", "a habit of good plans"),

	is(review.Set, "set", "write the key with the value, in place of one that is there"),
	is(review.Add, "add", "add the value to the list"),
	is(review.TakeOut, "take_out", "take the key out"),
	is(review.Swap, "swap", "put the value in place of the entry with a lag of the task that is named"),

	is(odds.PERT, "pert", "a beta distribution about the likeliest"),
	is(odds.Triangular, "triangular", "straight from best to likeliest to worst"),

	is(odds.AllRain, "all_rain", "all wet days together"),
	is(odds.AllWind, "all_wind", "all windy days together"),
	is(odds.Rain, "rain", "a wet day"),
	is(odds.Wind, "wind", "a windy day"),
	is(odds.LateLorry, "late", "a lorry is late"),
	is(odds.FailedSign, "failed", "a sign-off fails the first time"),
	is(odds.NobodySign, "nobody", "nobody is there to sign when a task is ready"),
	is(odds.LongWork, "long", "a task takes longer than planned"),
	is(odds.SlowCrew, "slow", "a crew is slower than thought"),
	is(odds.FewCame, "turn_out", "not all of a crew turn out"),

	is(odds.WetDay, "wet_day", "it is wet"),
	is(odds.WindyDay, "windy_day", "it is windy"),
	is(odds.FewCome, "turn_out", "not all of a crew turn out for the day"),
	is(odds.LorryLate, "lorry_late", "a lorry isn't there when it was booked"),
	is(odds.TookMore, "took_more", "a task is finished that took half an hour more than planned, or longer"),
	is(odds.NotReady, "not_ready", "a task isn't ready for its sign-off"),
	is(odds.SignOff, "failed", "a sign-off fails the first time"),
	is(odds.Called, "called", "a machine, or who signs, is called to come at another time"),
	is(odds.Ordered, "ordered", "hands go in another order"),
	is(odds.LeftOut, "left_out", "optional work is left out"),
	is(odds.Lost, "lost", "by what is known then the hand-over is late from now on"),
	is(odds.Back, "back", "by what is known then it is in time again"),

	is(odds.Work, "work", "the working time of a task"),
	is(odds.Pace, "pace", "the pace of a crew"),
	is(odds.Late, "late", "how late a delivery comes"),
	is(odds.Fails, "fails", "whether a sign-off fails the first time"),
	is(odds.StayAway, "stay_away", "how many of a crew stay away up to the hand-over, summed over days"),
	is(odds.WetDays, "wet_days", "how many days up to the hand-over are wet"),
	is(odds.WindyDays, "windy_days", "how many days up to the hand-over are windy"),

	is(sturdier.AsPlanned, sturdier.AsPlanned.String(), "the plan's own programme"),
	is(sturdier.SameMargin, sturdier.SameMargin.String(), "done no later, with a better chance"),
	is(sturdier.Between, sturdier.Between.String(), "done later, part of the way to the sturdiest"),
	is(sturdier.Sturdiest, sturdier.Sturdiest.String(), "the best chance found, whatever it costs"),

	is(issue.New, "new", "it wasn't told of it"),
	is(issue.Gone, "gone", "it has left the plan"),
	is(issue.Others, "others", "it isn't this crew's any more"),
	is(issue.LeftOut, "left_out", "it has no place in the programme any more"),
	is(issue.PutBack, "put_back", "it has a place again"),
	is(issue.Moved, "moved", "it is at another moment"),
	is(issue.Headed, "heads", "with other heads or machines"),
	is(issue.Placed, "place", "it is elsewhere"),
	is(issue.Ticked, "logged", "something was logged of it since"),

	is(baseline.Moved, "moved", "it starts or comes at another moment"),
	is(baseline.Longer, "longer", "it takes longer, or shorter"),
	is(baseline.Added, "added", "the second alone has it"),
	is(baseline.Gone, "gone", "the first alone has it"),
	is(baseline.LeftOut, "left_out", "the second leaves it out"),
	is(baseline.PutBack, "put_back", "the second has it again"),
	is(baseline.Lost, "no_place", "it has no place in the second"),
	is(baseline.Placed, "placed", "it had no place in the first"),
)

func is(value any, name, means string) shape.Word {
	return shape.Word{Value: value, Name: name, Means: means}
}
