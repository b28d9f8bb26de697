package wording

// The words of the wall chart.
const (
	Wall     = "Wall chart"
	TheChain = "THE CHAIN"
	GateLane = "GATE"

	// WallSays is what the chart shows, for those who hear it.
	WallSays = "Open hours of the site run from left to right, nights are narrow seams; zones stand as one walks in, " +
		"the gate at the foot; the heavy line is the hand-over. The table after the chart says the same in words."

	MarkChain  = "fixes the hand-over"
	MarkTight  = "may slip an hour or less"
	MarkFree   = "may slip more: by the figure"
	MarkWork   = "other work"
	MarkLate   = "breaks a date"
	MarkCure   = "cures, dries"
	MarkHold   = "to be signed"
	MarkIn     = "lorry in"
	MarkOut    = "lorry out"
	MarkDone   = "done"
	MarkInHand = "in hand"
	MarkNight  = "night"
)

// The table that says in words what the wall chart shows.
const (
	WholeTitle  = "the whole build in words"
	WholeGate   = "Gate"
	WholeNumber = "no."
	WholeWhat   = "what"
	WholeFrom   = "from"
	WholeTo     = "to"
	WholeSlip   = "may slip"
)

// AllPages is the title of the page that lists all others.
const AllPages = "all pages"
