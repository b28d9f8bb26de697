package plans

import "build.example/turflast/schedule"

// Published are critical path examples from textbooks and courses.
func Published() []Example {
	return append(finishStart(), general()...)
}

func finishStart() []Example {
	return []Example{
		{
			Name: "nine site activities",
			Source: "Hendrickson and Au, Project Management for Construction, ch. 10: " +
				"durations, links, 30-day finish, critical dates",
			Ours: "floats off the critical path: " +
				"the copies seen contradict their own links (one starts B after A, one lets G end at 30)",
			Unit: 60, Handover: 30, Critical: "A C F I",
			Acts: []Act{
				act("A", 4, nil, 0, 4, 0, 4, 0, 0),
				act("B", 3, nil, 0, 3, 9, 12, 9, 9),
				act("C", 8, fs("A"), 4, 12, 4, 12, 0, 0),
				act("D", 7, fs("A"), 4, 11, 15, 22, 11, 10),
				act("E", 9, fs("B C"), 12, 21, 13, 22, 1, 0),
				act("F", 12, fs("B C"), 12, 24, 12, 24, 0, 0),
				act("G", 2, fs("D E"), 21, 23, 22, 24, 1, 1),
				act("H", 5, fs("D E"), 21, 26, 25, 30, 4, 4),
				act("I", 6, fs("F G"), 24, 30, 24, 30, 0, 0),
			},
		},
		{
			Name:   "nine site activities, two days short",
			Source: "the network of Hendrickson and Au, ch. 10",
			Ours:   "all late dates and floats: the required finish of 28 is ours",
			Unit:   60, Handover: 28, Critical: "A C F I",
			Acts: []Act{
				act("A", 4, nil, 0, 4, -2, 2, -2, 0),
				act("B", 3, nil, 0, 3, 7, 10, 7, 9),
				act("C", 8, fs("A"), 4, 12, 2, 10, -2, 0),
				act("D", 7, fs("A"), 4, 11, 13, 20, 9, 10),
				act("E", 9, fs("B C"), 12, 21, 11, 20, -1, 0),
				act("F", 12, fs("B C"), 12, 24, 10, 22, -2, 0),
				act("G", 2, fs("D E"), 21, 23, 20, 22, -1, 1),
				act("H", 5, fs("D E"), 21, 26, 23, 28, 2, 4),
				act("I", 6, fs("F G"), 24, 30, 22, 28, -2, 0),
			},
		},
		{
			Name:   "seven activities, 16 hours",
			Source: "course hand-out, studylib.net document 8378728: durations, links, early and late dates, total floats",
			Ours:   "free floats",
			Unit:   60, Handover: 16, Critical: "A B D E G",
			Acts: []Act{
				act("A", 6, nil, 0, 6, 0, 6, 0, 0),
				act("B", 2, fs("A"), 6, 8, 6, 8, 0, 0),
				act("C", 2, fs("A"), 6, 8, 7, 9, 1, 0),
				act("D", 3, fs("B"), 8, 11, 8, 11, 0, 0),
				act("F", 2, fs("C"), 8, 10, 9, 11, 1, 1),
				act("E", 4, fs("D F"), 11, 15, 11, 15, 0, 0),
				act("G", 1, fs("E"), 15, 16, 15, 16, 0, 0),
			},
		},
		{
			Name: "seven activities, 11 weeks",
			Source: "business course, bizhelp24.com, critical path analysis part 2: " +
				"early starts, late finishes, total and free floats",
			Unit: 60, Handover: 11, Critical: "A B D F G",
			Acts: []Act{
				act("A", 1, nil, 0, 1, 0, 1, 0, 0),
				act("B", 3, fs("A"), 1, 4, 1, 4, 0, 0),
				act("C", 2, fs("A"), 1, 3, 2, 4, 1, 0),
				act("D", 3, fs("B"), 4, 7, 4, 7, 0, 0),
				act("E", 3, fs("C"), 3, 6, 4, 7, 1, 1),
				act("F", 2, fs("D E"), 7, 9, 7, 9, 0, 0),
				act("G", 2, fs("F"), 9, 11, 9, 11, 0, 0),
			},
		},
		{
			Name: "fourteen activities, five paths",
			Source: "course module, Network Construction: Critical Path Method: " +
				"links, the lengths of all five paths, the critical one",
			Ours: "dates and floats of single activities",
			Unit: 60, Handover: 41, Critical: "A B F I K L N",
			Acts: []Act{
				act("A", 2, nil, 0, 2, 0, 2, 0, 0),
				act("B", 10, fs("A"), 2, 12, 2, 12, 0, 0),
				act("C", 13, fs("A"), 2, 15, 13, 26, 11, 9),
				act("D", 12, fs("A"), 2, 14, 4, 16, 2, 0),
				act("E", 12, fs("B"), 12, 24, 18, 30, 6, 6),
				act("F", 7, fs("B"), 12, 19, 12, 19, 0, 0),
				act("G", 10, fs("D"), 14, 24, 16, 26, 2, 0),
				act("H", 16, fs("D"), 14, 30, 17, 33, 3, 0),
				act("I", 6, fs("F"), 19, 25, 19, 25, 0, 0),
				act("J", 12, fs("C G"), 24, 36, 26, 38, 2, 2),
				act("K", 5, fs("I"), 25, 30, 25, 30, 0, 0),
				act("L", 8, fs("E K"), 30, 38, 30, 38, 0, 0),
				act("M", 5, fs("H"), 30, 35, 33, 38, 3, 3),
				act("N", 3, fs("J L M"), 38, 41, 38, 41, 0, 0),
			},
		},
		threePoint(),
	}
}

// threePoint counts in sixths of a week, so that (a+4m+b)/6 is whole.
func threePoint() Example {
	return Example{
		Name: "fourteen activities with three-point times",
		Source: "course problem, studyzin.com 34526 and wizedu.com 717873: " +
			"expected times, dates and slacks, rounded to hundredths",
		Ours: "free floats",
		Unit: 10, Handover: 305, Critical: "A C E H I K M N",
		Acts: []Act{
			act("A", 32, nil, 0, 32, 0, 32, 0, 0),
			act("B", 14, nil, 0, 14, 48, 62, 48, 48),
			act("C", 30, fs("A"), 32, 62, 32, 62, 0, 0),
			act("D", 49, fs("A"), 32, 81, 43, 92, 11, 0),
			act("E", 58, fs("B C"), 62, 120, 62, 120, 0, 0),
			act("F", 28, fs("D"), 81, 109, 92, 120, 11, 11),
			act("G", 35, fs("D"), 81, 116, 111, 146, 30, 30),
			act("H", 26, fs("E F"), 120, 146, 120, 146, 0, 0),
			act("I", 40, fs("G H"), 146, 186, 146, 186, 0, 0),
			act("J", 25, fs("I"), 186, 211, 201, 226, 15, 0),
			act("K", 59, fs("I"), 186, 245, 186, 245, 0, 0),
			act("L", 32, fs("J"), 211, 243, 226, 258, 15, 15),
			act("M", 13, fs("K"), 245, 258, 245, 258, 0, 0),
			act("N", 47, fs("L M"), 258, 305, 258, 305, 0, 0),
		},
	}
}

// general are examples with other links than finish-start, or with lags.
func general() []Example {
	const ss, ff, sf = schedule.StartStart, schedule.FinishFinish, schedule.StartFinish
	with := func(first []Link, more ...Link) []Link { return append(first, more...) }
	return []Example{
		{
			Name:   "fourteen activities with start-start links",
			Source: "course module, Precedence Diagram Method (2019): durations and links",
			Ours:   "all dates and floats: the published ones could not be seen",
			Unit:   60, Handover: 38, Critical: "A D H M N",
			Acts: []Act{
				act("A", 2, nil, 0, 2, 0, 2, 0, 0),
				act("B", 10, []Link{{"A", ss, 0}}, 0, 10, 4, 14, 4, 0),
				act("C", 13, fs("A"), 2, 15, 10, 23, 8, 0),
				act("D", 12, fs("A"), 2, 14, 2, 14, 0, 0),
				act("E", 12, fs("B"), 10, 22, 15, 27, 5, 1),
				act("F", 7, fs("B"), 10, 17, 14, 21, 4, 0),
				act("G", 10, fs("D"), 14, 24, 23, 33, 9, 1),
				act("H", 16, fs("D"), 14, 30, 14, 30, 0, 0),
				act("I", 6, fs("F"), 17, 23, 21, 27, 4, 0),
				act("J", 12, with(fs("C"), Link{"G", ss, 0}), 15, 27, 23, 35, 8, 8),
				act("K", 5, []Link{{"I", ss, 0}}, 17, 22, 22, 27, 5, 1),
				act("L", 8, fs("E I K"), 23, 31, 27, 35, 4, 4),
				act("M", 5, fs("H"), 30, 35, 30, 35, 0, 0),
				act("N", 3, fs("G J L M"), 35, 38, 35, 38, 0, 0),
			},
		},
		{
			Name:   "ten activities with lags of three kinds",
			Source: "textbook exercise, jiskha.com question 461363: durations, links and lags",
			Ours:   "all dates and floats: the answer printed there breaks the lags it states",
			Unit:   60, Handover: 70, Critical: "A C E G H J",
			Acts: []Act{
				act("A", 2, nil, 0, 2, 0, 2, 0, 0),
				act("B", 4, fs("A"), 2, 6, 14, 18, 12, 12),
				act("C", 6, fs("A"), 2, 8, 2, 8, 0, 0),
				act("D", 8, fs("A"), 2, 10, 30, 38, 28, 3),
				act("E", 18, with(fs("B"), Link{"C", 0, 10}), 18, 36, 18, 36, 0, 0),
				act("F", 2, with(fs("D"), Link{"C", ff, 7}), 13, 15, 38, 40, 25, 25),
				act("G", 5, with(fs("F"), Link{"E", ff, 9}), 40, 45, 40, 45, 0, 0),
				act("H", 5, []Link{{"G", ss, 10}}, 50, 55, 50, 55, 0, 0),
				act("I", 14, fs("E"), 36, 50, 51, 65, 15, 15),
				act("J", 15, with(fs("G H"), Link{"I", ff, 5}), 55, 70, 55, 70, 0, 0),
			},
		},
		{
			Name:   "pour, wall, cladding, lights, tree, clean",
			Source: "made for this project",
			Ours:   "all: worked by hand; cladding is held by its start and by its finish at once, the tree by a lead",
			Unit:   60, Handover: 11, Critical: "pour wall cladding clean",
			Acts: []Act{
				act("pour", 1, nil, 0, 1, 0, 1, 0, 0),
				act("wall", 4, []Link{{"pour", 0, 3}}, 4, 8, 4, 8, 0, 0),
				act("cladding", 4, []Link{{"wall", ss, 2}, {"wall", ff, 1}}, 6, 10, 6, 10, 0, 0),
				act("lights", 2, []Link{{"cladding", ff, 0}}, 8, 10, 8, 10, 0, 0),
				act("tree", 3, []Link{{"wall", 0, -1}}, 7, 10, 7, 10, 0, 0),
				act("clean", 1, fs("cladding lights tree"), 10, 11, 10, 11, 0, 0),
			},
		},
		{
			Name:   "shorter cladding, held by its finish",
			Source: "made for this project",
			Ours:   "all: worked by hand",
			Unit:   60, Handover: 11, Critical: "pour wall tree clean",
			Acts: []Act{
				act("pour", 1, nil, 0, 1, 0, 1, 0, 0),
				act("wall", 4, []Link{{"pour", 0, 3}}, 4, 8, 4, 8, 0, 0),
				act("cladding", 2, []Link{{"wall", ss, 2}, {"wall", ff, 1}}, 7, 9, 8, 10, 1, 0),
				act("lights", 2, []Link{{"cladding", ff, 0}}, 7, 9, 8, 10, 1, 1),
				act("tree", 3, []Link{{"wall", 0, -1}}, 7, 10, 7, 10, 0, 0),
				act("clean", 1, fs("cladding lights tree"), 10, 11, 10, 11, 0, 0),
			},
		},
		{
			Name:   "start-finish",
			Source: "made for this project",
			Ours:   "all: worked by hand; only the start of X drives",
			Unit:   60, Handover: 7, Critical: "X Y Z",
			Acts: []Act{
				act("X", 5, nil, 0, 5, 0, 5, 0, 0),
				act("Y", 3, []Link{{"X", sf, 6}}, 3, 6, 3, 6, 0, 0),
				act("Z", 1, fs("X Y"), 6, 7, 6, 7, 0, 0),
			},
		},
	}
}
