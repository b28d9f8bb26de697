package said

// skyRules are the ways to say that there was weather in which some work stood still.
func skyRules() []rule[Tick] {
	out := []rule[Tick]{
		{[]string{"rained off", "wet", "washed out", "wet all day", "rain all day"}, sky(Wet)},
		{[]string{"raining", "rain", "/wet/ since <when>"}, wetUntil},
		{[]string{"/windy/ got up <when>", "/windy/ picked up <when>"}, windUntil},
		{[]string{"/windy/", "/windy/ all day"}, sky(Windy)},
		{[]string{"/frost/", "/frost/ all day"}, sky(Frost)},
		{[]string{"/heat/", "/heat/ all day"}, sky(Heat)},
	}
	for what, class := range map[Happened]string{Wet: "/wet/", Windy: "/windy/", Frost: "/frost/", Heat: "/heat/"} {
		out = append(out, rule[Tick]{[]string{class + " <ondate>", "<ondate> " + class, class + " <partday>",
			"<partday> " + class, class + " <ondate> all day", class + " all day <ondate>"}, sky(what)})
	}
	return out
}

func init() {
	classes["windy"] = "windy|too windy|very windy|wind|strong wind|strong winds|high wind|high winds|gale|gales|gusts|" +
		"gusty|storm|stormy|too much wind|it blew|it was windy|it was too windy"
	classes["frost"] = "frost|hard frost|ground frost|frosty|freezing|frozen|icy|black ice|too cold|it froze"
	classes["heat"] = "heat|great heat|hot|too hot|very hot|heatwave|heat wave|too warm"
}

// sky is weather in which some work stood still, on a date, today unless one is said.
func sky(what Happened) func(*Garden, found) []meaning[Tick] {
	return func(g *Garden, f found) []meaning[Tick] {
		f, on := g.about(f)
		return as(f, Tick{What: what, Date: on, Span: f.span})
	}
}

// wetUntil is rain of which nobody has said until when.
func wetUntil(g *Garden, f found) []meaning[Tick] {
	why := "say for which day, or from when to when, like rain from 13:00 to 15:00"
	return asking(f, why, Tick{What: Wet, Date: g.today()})
}

// windUntil is wind of which nobody has said until when.
func windUntil(_ *Garden, f found) []meaning[Tick] {
	return asking[Tick](f, "say from when to when, like windy from 13:00 to 15:00")
}
