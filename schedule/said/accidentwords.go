package said

// accidentRules are the ways to say that somebody was hurt, or nearly.
func accidentRules() []rule[Tick] {
	var out []rule[Tick]
	for what, class := range map[Happened]string{Accident: "/accident/", NearMiss: "/nearmiss/"} {
		out = append(out, rule[Tick]{[]string{class + " <text>", class + " /where/? <zone> <when>? : <text>",
			class + " <when> : <text>", class + " <when> /where/ <zone> : <text>",
			class + " /where/? <zone> <when>? /seen/ <who> : <text>",
			class + " <when> /seen/ <who> : <text>", class + " /seen/ <who> : <text>",
			class + " <when> /where/ <zone> /seen/ <who> : <text>"}, simply(what)},
			rule[Tick]{[]string{class}, unsaid[Tick]("say what happened, and where, when and who saw it: " +
				"\"accident in ZONE at 14:10, seen by NAME: what happened\"")})
	}
	return out
}

func init() {
	classes["accident"] = "accident|injury|somebody got hurt|someone got hurt|somebody is hurt|someone is hurt|" +
		"somebody was hurt|someone was hurt"
	classes["nearmiss"] = "near-miss|near miss|nearly an accident|almost an accident|close call|a near miss"
	classes["where"] = "in|at|on|by"
	classes["seen"] = "seen by|saw it|witness|witnessed by"
}
