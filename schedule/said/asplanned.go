package said

// plannedRules are the ways to say of what should have happened by now that it has, as planned:
// of some things, or without any of all.
func plannedRules() []rule[Tick] {
	return []rule[Tick]{
		{[]string{"<act> as planned", "<act> went as planned", "<act> is as planned", "<act> are as planned",
			"as planned <act>", "<act> as agreed"}, simply(AsPlanned)},
		{[]string{"as planned", "all as planned", "everything as planned", "all went as planned",
			"everything went as planned", "all as agreed"}, simply(AsPlanned)},
	}
}
