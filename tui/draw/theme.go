package draw

// Style names what a cell means; a theme says how that looks.
type Style uint8

// The styles. Work, living stock and what is late have a hue; the chain has the text's
// own colour, and the rest is strong or quiet text.
const (
	Plain  Style = iota
	Quiet        // seams, float, hints: fine as they are
	Strong       // names of what is in hand, headings
	Chain        // work that fixes the hand-over
	Work         // all other work
	Living       // living stock
	Warm         // beyond the line, or a date that breaks
	Line         // the hand-over line
	Margin       // the margin, written at that line
	Short        // the margin when the hand-over breaks
	Chosen       // what the keys act on
	styles
)

// Theme holds the escape sequence that begins each style; empty ones leave the
// text as it is. The zero Theme draws without any.
type Theme struct{ begin [styles]string }

// Depth is how many colours the terminal shows.
type Depth uint8

// The depths.
const (
	Mono Depth = iota
	Sixteen
	Indexed
	True
)

// hue is one colour at each depth, from the palette for colour-blind readers
// that Okabe and Ito published in 2008.
type hue struct{ sixteen, indexed, full string }

var (
	skyBlue     = hue{"36", "38;5;74", "38;2;86;180;233"}
	blue        = hue{"34", "38;5;25", "38;2;0;114;178"}
	bluishGreen = hue{"32", "38;5;36", "38;2;0;158;115"}
	vermillion  = hue{"31", "38;5;166", "38;2;213;94;0"}
)

func (h hue) at(d Depth) string {
	return [...]string{"", h.sixteen, h.indexed, h.full}[d]
}

// NewTheme returns the theme for a depth of colour, on a light or a dark background. At
// Mono it is the zero Theme.
func NewTheme(d Depth, light bool) Theme {
	if d == Mono {
		return Theme{}
	}
	work := skyBlue
	if light {
		work = blue
	}
	var t Theme
	for s, code := range map[Style]string{
		Quiet: "2", Strong: "1", Chain: "1", Line: "1", Margin: "1;7", Chosen: "1;7",
		Work: work.at(d), Living: bluishGreen.at(d), Warm: "1;" + vermillion.at(d), Short: "1;7;" + vermillion.at(d),
	} {
		t.begin[s] = "\x1b[" + code + "m"
	}
	return t
}

// reset ends every style.
const reset = "\x1b[0m"
