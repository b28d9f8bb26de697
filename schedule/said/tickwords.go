package said

import "slices"

// classes are the words that mean the same in a rule; longer ones count first.
var classes = map[string]string{
	"done": "done|all done|done with|finished with|finished|finish|finished off|complete|completed|✓|✔",
	"begun": "started|start|started on|started with|begun|begin|began|began on|underway|under way|" +
		"working on|in hand|starting|on the go|just started|got going on",
	"left":    "left|more|to go|remaining|still to go|still to do|left to do|more to do",
	"settled": "settled|settle|sorted|sorted out|agreed|granted|approved",
	"needs":   "another|needs another|needs|still needs|some",
	"paused":  "paused|pause|stopped|stop|on hold|held up|interrupted|stopped work on|standing still",
	"resumed": "resumed|resume|going again|goes on|going on again|continued|carries on|on again",
	"resume":  "resumed|resume|back on|carry on with|carrying on with|continue|going on with",
	"here": "in|landed|has landed|here|arrived|arrive|came|come|on site|at the gate|at gate|turned up|is in|" +
		"delivered",
	"unloaded":  "unloaded|off the lorry|off the truck|all off|off loaded|offloaded",
	"gone":      "gone|collected|loaded and gone|loaded and away|away with it",
	"ordered":   "ordered|on order|order placed|order is placed|order is in|been ordered",
	"confirmed": "confirmed|confirmed as booked|reconfirmed|been confirmed",
	"refused":   "refused|refuse|sent away|sent home|sent back|turned away|rejected",
	"rebooked": "rebooked|rebook|booked|moved|rebooked for|rebooked to|booked for|moved to|now comes|comes now|" +
		"comes|now coming|is to come|put off to|put off until",
	"signed": "signed|sign|signed off|passed|approved|signed off on",
	"failed": "failed|fail|not signed|not signed off|didn't pass|did not pass|not passed|didn't get signed",
	"fix": "put right|put it right|put that right|fix|fix it|mend|mend it|redo|redo it|repair|repair it|" +
		"make good|make it good",
	"with":      "by|with",
	"cancelled": "cancelled|canceled|cancel|called off|is off|not to be done|isn't to be done|won't be done|scrapped",
	"on":        "on|live|there|here|on now|in place|got|given|available|granted",
	"got":       "got|given|have|there is|we got",
	"wet":       "wet|rain|rained|rained off|raining|it rained|washed out",
	"turned":    "turned up|here|came|came in|on site|at work|in|present|there",
	"note":      "note|note on|note about|note for",
	"snag":      "snag|snag at|snag on|snag in",
	"undo":      "undo|undo that|undo last|scrap that|take that back|take it back|take back",
	"late":      "late|later|delayed|behind|too late|overdue|held up|slips|slip|pushed back|put back|delay",
	"early":     "early|earlier|sooner|too early|ahead|brought forward|ahead of time",
	"comes":     "comes|arrives|is coming|will come|come|comes in|coming|turns up",
	"longer":    "longer|more|extra|slower|over",
	"needing":   "needs|need|also needs|needs also|with|takes|take|gets|done by|by|needs at least",
	"lacking": "without|no longer needs|doesn't need|does not need|needs no|no longer uses|doesn't use|" +
		"does not use|does without|not with|no longer with",
	"using":  "uses|use|also uses|needs|also needs|takes",
	"cures":  "cures|cure|cures for|cure for|dries|dries for|drying|curing|sets for|cure is|cure of",
	"curing": "cure|dry|set|harden|go off",
	"goes":   "goes|go|stands|stand|is done|are done",
	"called": "is called|are called|called|renamed|renamed to|renamed as",
	"after": "after|comes after|goes after|follows|waits for|only after|has to wait for|must wait for|" +
		"is after|depends on",
	"not-after": "no longer after|not after|doesn't wait for|does not wait for|needn't wait for|" +
		"need not wait for|doesn't need to wait for|no longer waits for|doesn't depend on|doesn't follow|" +
		"doesn't come after",
	"can-start":  "can start|may start|starts|can only start|start|can begin|begins",
	"can-finish": "can finish|can only finish|may finish|finishes|ends|can only end",
	"when":       "when|once|as soon as|after|with",
	"starts":     "starts|start|started|has started|is started|begins|has begun",
	"finishes":   "finishes|finish|finished|is finished|ends|is done|is over",
	"shorter":    "shorter|less|quicker|faster|under",
	"takes":      "takes|needs|lasts|goes on|runs|take|will take|taking",
	"drop": "drop|leave out|without|skip|no|don't do|dont do|do without|leave away|cancel|forget|scrap|" +
		"take out|remove|delete",
	"more": "more|extra|additional|more people|up",
	"fewer": "less|fewer|short|down|missing|fewer people|away|off|sick|ill|" +
		"don't come|doesn't come|call in sick|calls in sick|not there|not here|out",
	"away": "away|off|not there|isn't there|aren't there|broken|breaks down|breaks|broken down|down|out|missing|" +
		"don't come|doesn't come|not here|sick|gone|not available|unavailable|can't come|breakdown|" +
		"taken|elsewhere|out of order",
	"work":   "work|works|working|at work|stay|stays|stay on|go on",
	"open":   "open|opens|is open",
	"closed": "closed|shut|close|closes",
	"stops":  "stops|stop|stands still|stand still|is stopped|stopped|paused|pauses",
	"also":   "ours|also|ours also|also ours|booked",
	"extra":  "extra|another|additional|one more|a second",
	"slot":   "slot|hours|time",
	"rain":   "rain|wet|heavy rain|showers|downpour|it pours|pouring|it rains|rainy|raining|it is wet|rains|it's wet",
	"wind":   "windy|wind|strong wind|high winds|gale|gales|gusts|storm|it blows|too windy|it's windy|it is windy",
	"if":     "what if|if|suppose|say",

	"than": "than planned|than expected|than in the plan|than thought",
	"lose": "lose|we lose|without|minus",
	"sheet": "what's on|what's up|what's happening|who's on|who is on|sheet for|list for|plan for|jobs for|jobs|" +
		"what happens|what do we do|what is on|the plan for|work|day|what are we doing",
	"can": "can we|could we|can't we|can it be|why can't we|why can't it be|" +
		"what about|why not|would|not|why isn't it",
	"so":       "so late|late|so early|early|so long|there|then",
	"does":     "come so late|start so late|come then|start|begin|wait|come|starts|begins|so late",
	"finished": "done|finished|ready|complete|all done",
	"belate":   "be|come|start|begin|arrive|be late|come late|be done|get here",
}

// ticks are all ways to say what happened; events are those without a note, which may
// say anything.
var ticks, events grammar[Tick]

func init() {
	events = compile(slices.Concat(workRules(), teamRules(), extraRules(), lorryRules(), partRules(), bookedRules(),
		siteRules(), plannedRules(), turnoutRules(), skyRules(), dutyRules()))
	ticks = append(events[:len(events):len(events)], compile(slices.Concat(noteRules(), accidentRules(), addRules()))...)
}

// workRules are the ways to say what happened to tasks.
func workRules() []rule[Tick] {
	const why = "say why too"
	return []rule[Tick]{
		{[]string{"<task> /done/ <when>?", "/done/ <task> <when>?", "<task> /done/ <when>? started <started>",
			"/done/ <task> <when>? started <started>", "<did> <when>?"}, simply(Finished)},
		{[]string{"<task> /begun/ <when>?", "/begun/ <task> <when>?", "on <task>", "on <task> now",
			"<task> /begun/ on? <when>"}, simply(Started)},
		{[]string{"<work> /left/ on <task> <when>?", "<work> /left/ of <task> <when>?", "<work> /left/ <task> <when>?",
			"<task> about? <work> /left/ <when>?", "left <task> about? <work> <when>?",
			"<task> /needs/ about? <work> /left/? <when>?", "<work> /left/ for <task> <when>?",
			"still <work> on <task>", "<task> still <work>", "still <work> to do on <task>",
			"<task> about <work> /left/ <when>?", "about <work> /left/ on <task>"}, leftOf},
		{[]string{"<task> left", "left <task>", "<task> half /done/", "half of <task> /done/", "half of <task> is /done/",
			"half /done/ with <task>"}, unsaid[Tick]("say how much work is left, like 2h left")},
		{[]string{"<task> /paused/ <when>? <why>", "/paused/ <task> <when>? <why>"}, simply(Paused)},
		{[]string{"<task> /paused/ <when>?", "/paused/ <task> <when>?"}, unsaid[Tick](why)},
		{[]string{"<task> /resumed/ <when>?", "/resume/ <task> <when>?"}, simply(Resumed)},
		{[]string{"<task> /signed/ <when>?", "/signed/ <task> <when>?"}, simply(Signed)},
		{[]string{"<task> /failed/ <when>? <why>", "/failed/ <task> <when>? <why>"}, failedWith},
		{[]string{"<task> /failed/ <when>?", "/failed/ <task> <when>?"}, unsaid[Tick](why)},
	}
}

// lorryRules are the ways to say what happened to lorries.
func lorryRules() []rule[Tick] {
	const why = "say why too"
	return []rule[Tick]{
		{[]string{"<lorry> /here/ <when>?", "/here/ <lorry> <when>?"}, simply(Arrived)},
		{[]string{"<lorry> /unloaded/ <when>?", "/unloaded/ <lorry> <when>?"}, simply(Unloaded)},
		{[]string{"<lorry> /unloaded/ <when>? came <started>", "/unloaded/ <lorry> <when>? came <started>",
			"<lorry> /here/ <started> and? /unloaded/ <when>?"}, cameAnd(Unloaded)},
		{[]string{"<lorry> left <when>?", "left <lorry> <when>?", "<lorry> /gone/ <when>?", "/gone/ <lorry> <when>?",
			"<lorry> loaded gone <when>?"}, lorryLeft},
		{[]string{"<lorry> /gone/ <when>? came <started>", "/gone/ <lorry> <when>? came <started>",
			"<lorry> /here/ <started> and? /gone/ <when>?"}, cameAnd(Gone)},
		{[]string{"<lorry> /ordered/ <when>?", "/ordered/ <lorry> <when>?"}, simply(Ordered)},
		{[]string{"<lorry> /confirmed/ <when>?", "/confirmed/ <lorry> <when>?"}, simply(Confirmed)},
		{[]string{"<lorry> /done/ <when>?", "/done/ <lorry> <when>?"},
			doubtful(Unloaded, "a lorry comes, and is unloaded")},
		{[]string{"<lorry> /refused/ <when>? <why>", "/refused/ <lorry> back? <when>? <why>",
			"sent <lorry> back <when>? <why>", "sent <lorry> away <when>? <why>"}, simply(Refused)},
		{[]string{"<lorry> /refused/ <when>?", "/refused/ <lorry> <when>?"}, unsaid[Tick](why)},
		{[]string{"<lorry> /rebooked/ <to> <why>?", "/rebooked/ <lorry> <to> <why>?"}, rebooked},
	}
}

// siteRules are the ways to say what happened to the site: people, what others give,
// the desk list.
func siteRules() []rule[Tick] {
	return []rule[Tick]{
		{[]string{"<given> /on/ <when>?", "/got/ <given> <when>?", "<given> <when>?"}, simply(Given)},
		{[]string{"/settled/ <desk> <when>? <why>?", "<desk> /settled/ <when>? <why>?"}, simply(Settled)},
		{[]string{"only? <count> of? <crew> /turned/? <ondate>?", "<crew> only? <count> /turned/? <ondate>?",
			"people <crew> <count> <ondate>?"}, turnedUp},
		{[]string{"nobody from <crew> <ondate>?", "no <crew> /turned/? <ondate>?", "<crew> nobody <ondate>?"}, nobody},
		{[]string{"<count> <crew> <more> <ondate>?", "<crew> <count> <more> <ondate>?", "<count> <more> <crew> <ondate>?"},
			fewerTurnedUp},
	}
}

// noteRules are the ways to write down anything else.
func noteRules() []rule[Tick] {
	return []rule[Tick]{
		{[]string{"note <text>", "/note/ <act> : <text>"}, simply(Note)},
		{[]string{"snag <text>", "/snag/ <task> : <text>"}, simply(Snag)},
		{[]string{"/undo/"}, undone},
	}
}
