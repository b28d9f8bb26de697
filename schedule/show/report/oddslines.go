package report

import "build.example/turflast/schedule/ask/odds"

// OddsLine is one line of what came of many builds. Lines of the picture hold the
// dots and the line; those that break name a date that does in some builds.
type OddsLine struct {
	Text    string
	Heading bool
	Picture bool
	Breaks  bool
}

// OddsLines are the lines of [Report.Odds] without the garden's name, in a width
// of so many columns and with a picture of at most so many rows of dots.
func (r *Report) OddsLines(o *odds.Result, width, rows int) []OddsLine {
	var lines []OddsLine
	w := &page{width: width, take: func(text string, kind lineKind) {
		lines = append(lines, OddsLine{Text: text, Heading: kind == headingLine, Picture: kind == pictureLine, Breaks: kind == breakLine})
	}}
	r.oddsHead(w, o)
	r.drawOdds(w, o, rows)
	r.oddsBody(w, o)
	return lines
}
