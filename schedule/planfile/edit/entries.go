package edit

import (
	"errors"
	"strings"

	"gopkg.in/yaml.v3"
)

// entry is one entry of a mapping or list, from its key or dash to the end of its value.
type entry struct{ start, end int }

// entries are those of a mapping or list in the order of the text.
func (d *document) entries(n *yaml.Node) []entry {
	var out []entry
	step := 1
	if n.Kind == yaml.MappingNode {
		step = 2
	}
	for i := 0; i < len(n.Content); i += step {
		e := entry{d.start(n.Content[i]), d.end(n.Content[i+step-1])}
		if block(n) && step == 1 {
			e.start = strings.LastIndexByte(d.text[:e.start], '-')
		}
		out = append(out, e)
	}
	return out
}

func block(n *yaml.Node) bool { return n.Style&yaml.FlowStyle == 0 }

// insert puts an entry before the one at an index, or behind the last. The text is the
// entry without its dash; the lines of a long one are indented from none.
func (d *document) insert(n *yaml.Node, at int, text string) error {
	all := d.entries(n)
	switch {
	case block(n):
		if n.Kind == yaml.SequenceNode {
			text = "- " + text
		}
		return d.insertLine(all, at, text)
	case len(all) == 0:
		inside := d.start(n) + 1
		return d.splice(cut{inside, inside, text})
	case at == 0:
		return d.splice(cut{all[0].start, all[0].start, text + ", "})
	case d.stacked(all):
		return d.insertStacked(all, at, text)
	}
	return d.splice(cut{all[at-1].end, all[at-1].end, d.comma(all) + text})
}

// insertLine puts an entry on lines of its own, indented as its neighbours are, and apart from
// them by a blank line where they all are.
func (d *document) insertLine(all []entry, at int, text string) error {
	eol, indent := d.eol(), d.indent(all[0].start)
	text = strings.ReplaceAll(text, "\n", eol+indent)
	if at == 0 {
		return d.splice(cut{all[0].start, all[0].start, text + eol + indent})
	}
	if d.spaced(all) {
		indent = eol + indent
	}
	end := d.lineEnd(all[at-1].end)
	return d.splice(cut{end, end, eol + indent + text})
}

// spaced says whether blank lines stand between all entries, of which there are some.
func (d *document) spaced(all []entry) bool {
	for i := 1; i < len(all); i++ {
		next := d.nextLine(d.lineEnd(all[i-1].end))
		if strings.TrimSpace(d.text[next:d.lineEnd(next)]) != "" {
			return false
		}
	}
	return len(all) > 1
}

// stacked says whether each entry inside brackets has a line of its own.
func (d *document) stacked(all []entry) bool {
	for i := 1; i < len(all); i++ {
		if !d.leads(all[i].start) {
			return false
		}
	}
	return len(all) > 1 || d.leads(all[0].start)
}

// insertStacked puts an entry on a line of its own inside brackets, behind the comment of the
// one before.
func (d *document) insertStacked(all []entry, at int, text string) error {
	before := all[at-1]
	own := before // an entry with a line of its own
	if !d.leads(own.start) && at < len(all) {
		own = all[at]
	}
	line := d.eol() + d.indent(own.start) + text
	comma := d.pastBlank(before.end)
	if d.text[comma] == ',' && d.lineStart(comma) == d.lineStart(before.end) {
		end := d.lineEnd(comma)
		return d.splice(cut{end, end, line + ","})
	}
	if end := d.lineEnd(before.end); d.trails(before.end) {
		return d.splice(cut{before.end, before.end, ","}, cut{end, end, line})
	}
	return d.splice(cut{before.end, before.end, "," + line})
}

// comma is what stands between entries inside brackets on one line.
func (d *document) comma(all []entry) string {
	if len(all) > 1 {
		between := d.text[all[0].end:all[1].start]
		if strings.Trim(between, " ") == "," {
			return between
		}
	}
	return ", "
}

// remove takes out the entry at an index, with the comment on its line. It isn't the only one.
func (d *document) remove(n *yaml.Node, at int) error {
	all := d.entries(n)
	switch e := all[at]; {
	case block(n) && d.leads(e.start):
		return d.removeLines(all, at)
	case at < len(all)-1:
		return d.splice(cut{e.start, all[at+1].start, ""})
	}
	return d.removeLast(all[at-1], all[at])
}

// removeLines takes out an entry that has lines of its own, and the blank line that parts it from
// the one before where all are parted so.
func (d *document) removeLines(all []entry, at int) error {
	e := all[at]
	from, to := d.lineStart(e.start), d.nextLine(d.lineEnd(e.end))
	if to == len(d.text) && !strings.HasSuffix(d.text, "\n") {
		from -= len(d.eol()) // the last line goes on having no line break
	}
	if at == 0 || !d.spaced(all) {
		return d.splice(cut{from, to, ""})
	}
	blank := d.lineEnd(all[at-1].end)
	after := d.lineEnd(d.nextLine(blank))
	return d.splice(cut{blank, min(after, from), ""}, cut{max(from, after), to, ""})
}

// removeLast takes out the last entry inside brackets, and the comma before it unless it is
// followed by one, which then is before the bracket as it was.
func (d *document) removeLast(before, e entry) error {
	between, next := d.text[before.end:e.start], d.pastBlank(e.end)
	alone := d.text[next] == '#' && d.lineStart(next) == d.lineStart(e.end) && strings.Contains(between, "\n")
	if strings.Trim(between, ", \r\n") == "" && !alone { // else it goes with the comment on its line
		return d.splice(cut{before.end, e.end, ""})
	}
	var cuts []cut
	from, to := e.start, e.end
	if d.text[next] == ',' {
		to = next + 1
	} else {
		comma := d.pastBlank(before.end)
		if d.text[comma] != ',' {
			return errors.New("a comma there stands at the beginning of a line; take the entry out by hand")
		}
		cuts = append(cuts, cut{comma, comma + 1, ""})
	}
	if d.leads(from) && d.trails(to) {
		from, to = d.lineStart(from), d.nextLine(d.lineEnd(to))
	}
	return d.splice(append(cuts, cut{from, to, ""})...)
}
