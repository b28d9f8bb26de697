package draw

// The marks, the same on every view and explained by [Legend].
const (
	markChain   = "█" // work on the hand-over chain
	markWork    = "▒" // other work
	markBeyond  = "▓" // work beyond the line
	markPause   = "─" // same task, nobody there
	markCure    = "·"
	markFloat   = "╌"
	markGone    = "⋅" // float that logic allows and hands don't, in every second column
	markMore    = "→" // the float goes on beyond what is drawn
	markHold    = "◌"
	markSigned  = "●" // a hold point that is signed
	markTicked  = "✓"
	markInHand  = "▸"
	markIn      = "▼"
	markOut     = "▲"
	markKeep    = "~"
	markBreak   = "!"
	markLater   = "▷" // where a task was before the changes made it later
	markSooner  = "◁" // where a task was before the changes made it sooner
	markAgreed  = "‹" // where a start was agreed
	markUntil   = "›" // where a finish was agreed
	markNow     = "┊"
	markLine    = "┃"
	markAim     = "╎"
	markSeam    = "▏" // a night, or the gate opening
	markOpen    = "━" // open hours, when nights are shown
	markTrace   = "│" // the chain, from one task to the next
	markGap     = "░" // the margin, between the finish and the line
	markRule    = "─"
	markWorking = "…" // a programme is looked for, and the figure is that before it
	markChosen  = ">"
)
