package said

import "build.example/turflast/schedule"

// changes are all ways to say what could be otherwise.
var changes grammar[schedule.Change]

func init() {
	var all []rule[schedule.Change]
	for _, r := range [...][]rule[schedule.Change]{
		comingRules(), taskRules(), peopleRules(), machineRules(), hoursRules(),
		getRules(), linkRules()} {
		for _, one := range r {
			for _, w := range one.words[:len(one.words):len(one.words)] {
				one.words = append(one.words, "/if/ "+w)
			}
			all = append(all, one)
		}
	}
	changes = compile(all)
}

// to makes a rule of a change.
func to(make changer, words ...string) rule[schedule.Change] {
	return rule[schedule.Change]{words, make}
}

// comingRules are lorries and what others give: later, sooner, booked anew.
func comingRules() []rule[schedule.Change] {
	later, sooner := each(schedule.ChangeShift, byLength), each(schedule.ChangeShift, lessLength)
	booked, given := each(schedule.ChangeBook, atMoment), each(schedule.ChangeGive, atMoment)
	return []rule[schedule.Change]{
		to(later, "<come> /comes/? <length> too? /late/ /than/?", "<come> /comes/? /late/ by? <length>",
			"<length> /late/ for <come>", "<length> /late/ <come>", "<length> delay to <come>", "<length> delay on <come>",
			"delay <come> by? <length>", "put <come> back <length>", "push <come> back <length>"),
		to(sooner, "<come> /comes/? <length> too? /early/", "<come> /comes/? /early/ by? <length>",
			"bring forward? <come> forward? by? <length>"),
		to(asks("say how late, like 2 days late"), "<come> /comes/? /late/"),
		to(asks("say by how much it comes earlier"), "<come> /comes/? /early/"),
		to(booked, "<lorry> on <to>", "<lorry> booked for <to>", "<lorry> moved to <to>", "move <lorry> to <to>",
			"book <lorry> for <to>", "rebook <lorry> to <to>", "<lorry> <to>"),
		to(comes, "<lorry> /comes/ on? <to>"),
		to(given, "<given> from <to>", "no <given> until <to>", "no <given> till <to>", "no <given> before <to>",
			"<given> not before <to>", "<given> not until <to>", "<given> only from? <to>", "<given> /comes/ <to>"),
		to(asks("say how late it is, or what to leave out that uses it"),
			"<lorry> doesn't come", "<lorry> does not come", "<lorry> never comes"),
		to(lorryOut, "/drop/ <lorry>", "take <lorry> out"),
	}
}

// taskRules are tasks: longer, shorter, left out, signed, stopped.
func taskRules() []rule[schedule.Change] {
	more, less := each(schedule.ChangeStretch, byLength), each(schedule.ChangeStretch, lessLength)
	stopped := each(schedule.ChangeStop, overSpan)
	return []rule[schedule.Change]{
		to(more, "<task> /takes/? <work> /longer/ /than/?", "<task> /takes/ another <work>", "<task> longer by? <work>"),
		to(less, "<task> /takes/? <work> /shorter/ /than/?", "<task> shorter by? <work>"),
		to(taking, "<task> /takes/ <work>"),
		to(asks("say how long it takes with the heads that it has, like 8h"), "<task> /takes/ <count> person hours",
			"<task> /takes/ <count> person-hours", "<task> /takes/ <count> man hours"),
		to(asks("say by how much, like 2h longer"), "<task> /takes/? longer", "<task> /takes/? shorter"),
		to(lateTask, "<task> <length> /late/", "<task> starts <length> /late/", "<task> /late/ by? <length>"),
		to(dropped, "/drop/ <task>", "take <task> out"),
		to(asks("name the task to leave out, or the lorry whose drop is late"), "drop", "drop <length> /late/"),
		to(each(schedule.ChangeSign, atMoment), "<task> appointment <to>", "appointment for <task> <to>",
			"another appointment for <task> <to>"),
		to(asks("say it like "+`"TASK appointment Fri 7 May 15:00"`), "<task> signed <to>"),
		to(stopped, "<task> /stops/ <span>"),
		to(each(schedule.ChangeStop, onDates), "<task> /stops/ <dates>"),
	}
}

// peopleRules are crews: more, fewer, away, longer hours.
func peopleRules() []rule[schedule.Change] {
	return []rule[schedule.Change]{
		to(heads, "<crew> <count> <more> <dates>", "<count> <crew> <more> <dates>", "<count> <more> <crew> <dates>",
			"<crew> + <count> <dates>", "<dates> <count> <crew> <more>", "<dates> <crew> <count> <more>"),
		to(fewerHeads, "/lose/ <count> <crew> <dates>"),
		to(asks("say on which day"), "<crew> <count> <more>", "<count> <crew> <more>", "<count> <more> <crew>"),
		to(asks("say of which crew"), "<count> <more> <dates>"),
		to(asks("say how many"), "<crew> <more> <dates>"),
		to(onlySome, "only <count> <crew> <dates>", "<count> <crew> <dates>", "<crew> only? <count> <dates>"),
		to(longer(schedule.ChangeWork), "<crew> /work/? <dates> <until>", "<crew> /work/? <until> <dates>",
			"<crew> /work/? <date> <from>", "<crew> /work/? <from> <date>", "<crew> start <from> <date>"),
		to(between(schedule.ChangeWork), "<crew> /work/ <span>"),
		to(asks("say until when"), "<crew> /work/ late <date>", "<crew> /work/ longer <date>"),
	}
}

// machineRules are machines and whole crews: away, or there for a slot more.
func machineRules() []rule[schedule.Change] {
	hours := each(schedule.ChangeAway, overSpan)
	return []rule[schedule.Change]{
		to(absent, "<gone> /away/ <dates>", "no <gone> <dates>", "<gone> /away/ all day <dates>", "<dates> no <gone>"),
		to(hours, "<gone> /away/ <span>", "no <gone> <span>"),
		to(asks("say when"), "<gone> /away/", "no <gone>"),
		to(asks("a machine comes in its slots: say when it is away, like "+`"MACHINE away Thu 6 May 07:00 to 12:00"`),
			"<machine> <length> /late/"),
		to(each(schedule.ChangeSlot, overSpan), "<machine> /also/ <span>", "/extra/ <machine> /slot/? <span>"),
	}
}

// hoursRules are the site, the gate and the sky.
func hoursRules() []rule[schedule.Change] {
	return []rule[schedule.Change]{
		to(longer(schedule.ChangeOpen), "<place> /open/ <dates> <until>", "<place> /open/ <until> <dates>",
			"<place> /open/ <date> <from>", "<place> /open/ <from> <date>"),
		to(between(schedule.ChangeOpen), "<place> /open/ <span>"),
		to(asks("say until when"), "<place> /open/ late <date>", "<place> /open/ longer <date>"),
		to(each(schedule.ChangeClose, onDates), "<place> /closed/ <dates>"),
		to(each(schedule.ChangeClose, overSpan), "<place> /closed/ <span>"),
		to(moved(false), "<place> closure on <closure> <length> /late/"),
		to(moved(true), "<place> closure on <closure> <length> /early/"),
		to(wetOn, "/rain/ <dates>", "<dates> /rain/", "/rain/ all day <dates>"),
		to(windyOn, "/wind/ <dates>", "<dates> /wind/", "/wind/ all day <dates>"),
		to(asks("say on which day"), "/wind/"),
		to(asks("say on which day"), "/rain/"),
	}
}
