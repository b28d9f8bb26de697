package draw

import (
	"fmt"
	"strings"
)

// Style names what a cell means; a theme says how that looks.
type Style uint8

// The styles. Bars are grounds under their names: the chain has the text's own colour, all
// other work one hue in two depths, what is late or breaks a date a warm one. The rest is
// strong or quiet text.
const (
	Plain   Style = iota
	Quiet         // figures of ample float, hints: fine as they are
	Seam          // nights and openings, a ruler under the work
	Strong        // names of what is in hand, headings
	Chain         // words on what fixes the hand-over
	Tight         // words on what may slip little
	Work          // marks of all other work
	Living        // living stock
	Warm          // words on what lies beyond the line, or on a date that breaks
	Line          // the hand-over line
	Margin        // the margin, written at that line
	Short         // the margin when the hand-over breaks
	Chosen        // what the keys act on
	OnChain       // a bar that fixes the hand-over, and what is written on it
	OnTight       // a bar that may slip little
	OnFree        // a bar that may slip more
	OnDone        // a bar that is finished
	OnLate        // a bar beyond the line, or one that breaks a date
	styles
)

// Theme holds the escape sequence that begins each style; empty ones leave the text as it
// is. The zero Theme draws without any.
type Theme struct {
	begin [styles]string
	hued  bool // bars' grounds differ by colour
	ascii bool // characters beyond ASCII aren't shown
}

// Depth is how many colours the terminal shows.
type Depth uint8

// The depths. At Mono there are bold, underlined and reversed characters, no colours.
const (
	Mono Depth = iota
	Sixteen
	Indexed
	True
)

// colour is one colour where there are 256, and where there are all.
type colour struct {
	indexed uint8
	full    [3]uint8
}

// The hues are those of the palette for colour-blind readers that Okabe and Ito published
// in 2008, made darker or lighter where a ground needs it: contrasts are computed in a test.
var (
	skyBlue     = colour{74, [3]uint8{86, 180, 233}}
	blue        = colour{25, [3]uint8{0, 114, 178}}
	deepBlue    = colour{62, [3]uint8{12, 120, 184}}
	paleBlue    = colour{68, [3]uint8{66, 140, 195}}
	navy        = colour{24, [3]uint8{0, 78, 122}}
	bluishGreen = colour{36, [3]uint8{0, 165, 121}}
	pineGreen   = colour{23, [3]uint8{0, 112, 82}}
	vermillion  = colour{208, [3]uint8{236, 116, 30}}
	rust        = colour{130, [3]uint8{168, 66, 0}}
	umber       = colour{94, [3]uint8{160, 62, 0}}
	black       = colour{16, [3]uint8{0, 0, 0}}
	white       = colour{231, [3]uint8{255, 255, 255}}
	paper       = colour{255, [3]uint8{238, 238, 238}}
	ink         = colour{234, [3]uint8{28, 28, 28}}
	paleGrey    = colour{250, [3]uint8{188, 188, 188}}
	middleGrey  = colour{246, [3]uint8{148, 148, 148}}
	slateGrey   = colour{241, [3]uint8{98, 98, 98}}
	charcoal    = colour{238, [3]uint8{68, 68, 68}}
)

// look is how a style looks: words on a ground, each the terminal's own where it is nil,
// with attributes; and the whole of it where there are sixteen colours or none.
type look struct {
	words, ground *colour
	also          string
	sixteen, mono string
}

// byGround are the looks on a dark and on a light background. Shape comes before colour:
// the grounds of bars differ without colours too.
var byGround = [2]map[Style]look{
	{
		Quiet:   {words: &middleGrey, sixteen: "2", mono: "2"},
		Seam:    {words: &charcoal, sixteen: "2", mono: "2"},
		Tight:   {words: &skyBlue, also: "1", sixteen: "1;36", mono: "1"},
		Work:    {words: &skyBlue, sixteen: "36"},
		Living:  {words: &bluishGreen, sixteen: "32"},
		Warm:    {words: &vermillion, also: "1", sixteen: "1;31", mono: "1"},
		Short:   {words: &black, ground: &vermillion, also: "1", sixteen: "1;7;31", mono: "1;7"},
		OnChain: {words: &black, ground: &paper, also: "1", sixteen: "1;7", mono: "1;7"},
		OnTight: {words: &black, ground: &skyBlue, sixteen: "30;46", mono: "4;7"},
		OnFree:  {words: &white, ground: &deepBlue, sixteen: "97;44", mono: "4"},
		OnDone:  {words: &paleGrey, ground: &charcoal, sixteen: "2;4", mono: "2;4"},
		OnLate:  {words: &black, ground: &vermillion, also: "1", sixteen: "1;97;41", mono: "1;4;7"},
	},
	{
		Quiet:   {words: &slateGrey, sixteen: "2", mono: "2"},
		Seam:    {words: &paleGrey, sixteen: "2", mono: "2"},
		Tight:   {words: &blue, also: "1", sixteen: "1;34", mono: "1"},
		Work:    {words: &blue, sixteen: "34"},
		Living:  {words: &pineGreen, sixteen: "32"},
		Warm:    {words: &umber, also: "1", sixteen: "1;31", mono: "1"},
		Short:   {words: &white, ground: &rust, also: "1", sixteen: "1;7;31", mono: "1;7"},
		OnChain: {words: &white, ground: &ink, also: "1", sixteen: "1;7", mono: "1;7"},
		OnTight: {words: &white, ground: &navy, sixteen: "97;44", mono: "4;7"},
		OnFree:  {words: &black, ground: &paleBlue, sixteen: "30;46", mono: "4"},
		OnDone:  {words: &charcoal, ground: &paleGrey, sixteen: "2;4", mono: "2;4"},
		OnLate:  {words: &white, ground: &rust, also: "1", sixteen: "1;97;41", mono: "1;4;7"},
	},
}

// anyGround are the looks that need no colour.
var anyGround = map[Style]look{
	Strong: {also: "1"}, Chain: {also: "1"}, Line: {also: "1"}, Margin: {also: "1;7"}, Chosen: {also: "1;7"},
}

// NewTheme returns the theme for a depth of colour, on a light or a dark background.
func NewTheme(d Depth, light bool) Theme {
	looks := byGround[0]
	if light {
		looks = byGround[1]
	}
	t := Theme{hued: d != Mono}
	for s := range styles {
		l, coloured := looks[s]
		if !coloured {
			l = anyGround[s]
			l.sixteen, l.mono = l.also, l.also
		}
		if code := l.code(d); code != "" {
			t.begin[s] = "\x1b[" + code + "m"
		}
	}
	return t
}

// code returns the parameters of the escape sequence for a look; empty for none.
func (l look) code(d Depth) string {
	switch d {
	case Mono:
		return l.mono
	case Sixteen:
		return l.sixteen
	}
	var codes []string
	if l.also != "" {
		codes = append(codes, l.also)
	}
	if l.words != nil {
		codes = append(codes, "38;"+l.words.at(d))
	}
	if l.ground != nil {
		codes = append(codes, "48;"+l.ground.at(d))
	}
	return strings.Join(codes, ";")
}

func (c *colour) at(d Depth) string {
	if d == Indexed {
		return fmt.Sprintf("5;%d", c.indexed)
	}
	return fmt.Sprintf("2;%d;%d;%d", c.full[0], c.full[1], c.full[2])
}

// Few says whether bars' grounds are hard to tell apart, so that what may slip little bears
// a mark of its own.
func (t Theme) Few() bool { return !t.hued }

// ASCII returns the theme for a terminal that shows no characters but ASCII's.
func (t Theme) ASCII() Theme {
	t.ascii = true
	return t
}

// reset ends every style.
const reset = "\x1b[0m"
