package edit

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// document is the text of a plan and the places in it. Each change of the text reads it
// anew, so that places are always those of the text as it stands.
type document struct {
	mark   string // the byte order mark, or ""
	text   string // what follows it
	starts []int  // of the lines
	root   *yaml.Node
}

const byteOrderMark = "\uFEFF"

// open finds the places in a text.
func open(text string) (*document, error) {
	d := &document{}
	rest, marked := strings.CutPrefix(text, byteOrderMark)
	if marked {
		d.mark = byteOrderMark
	}
	return d, d.set(rest)
}

// set takes another text.
func (d *document) set(text string) error {
	var doc yaml.Node
	if err := yaml.Unmarshal([]byte(text), &doc); err != nil {
		return fmt.Errorf("the text would be no plan any more: %w", err)
	}
	if len(doc.Content) == 0 || doc.Content[0].Kind != yaml.MappingNode {
		return fmt.Errorf("the text holds no plan")
	}
	d.text, d.root, d.starts = text, doc.Content[0], []int{0}
	for i := range len(text) {
		if text[i] == '\n' {
			d.starts = append(d.starts, i+1)
		}
	}
	return nil
}

// String is the whole text.
func (d *document) String() string { return d.mark + d.text }

// start is the byte at which a node begins.
func (d *document) start(n *yaml.Node) int {
	at := d.starts[n.Line-1]
	for range n.Column - 1 {
		_, size := utf8.DecodeRuneInString(d.text[at:])
		at += size
	}
	return at
}

// end is the byte behind a node.
func (d *document) end(n *yaml.Node) int {
	at := d.start(n)
	switch {
	case n.Kind == yaml.ScalarNode:
		return d.scalarEnd(n, at)
	case n.Style&yaml.FlowStyle == 0:
		return d.end(n.Content[len(n.Content)-1])
	case len(n.Content) > 0:
		at = d.end(n.Content[len(n.Content)-1])
	default:
		at++
	}
	for { // to the closing bracket, over commas and comments
		switch at = d.pastBlank(at); d.text[at] {
		case ']', '}':
			return at + 1
		case '#':
			at = d.lineEnd(at)
		default:
			at++
		}
	}
}

// scalarEnd is the byte behind a scalar that begins at a byte.
func (d *document) scalarEnd(n *yaml.Node, at int) int {
	switch n.Style {
	case yaml.DoubleQuotedStyle:
		for at++; d.text[at] != '"'; at++ {
			if d.text[at] == '\\' {
				at++
			}
		}
		return at + 1
	case yaml.SingleQuotedStyle:
		for at++; ; at++ {
			if d.text[at] != '\'' {
				continue
			}
			if !strings.HasPrefix(d.text[at+1:], "'") {
				return at + 1
			}
			at++
		}
	case yaml.LiteralStyle, yaml.FoldedStyle:
		return d.blockEnd(at)
	}
	for _, c := range n.Value { // plain text stands as it is read, but for line breaks
		if unicode.IsSpace(c) {
			at = d.pastBlank(at)
		} else {
			at += utf8.RuneLen(c)
		}
	}
	return at
}

// blockEnd is the byte behind the text below a | or > at a byte: all lines as deep as the first.
func (d *document) blockEnd(at int) int {
	end, deep := d.lineEnd(at), -1
	for next := d.nextLine(end); next < len(d.text); next = d.nextLine(d.lineEnd(next)) {
		line := d.text[next:d.lineEnd(next)]
		indent := len(line) - len(strings.TrimLeft(line, " "))
		switch {
		case strings.TrimSpace(line) == "":
			continue
		case deep < 0:
			deep = indent
		case indent < deep:
			return end
		}
		end = d.lineEnd(next)
	}
	return end
}

// pastBlank is the first byte from one on that is no blank and no line break.
func (d *document) pastBlank(at int) int {
	return len(d.text) - len(strings.TrimLeft(d.text[at:], " \t\r\n"))
}

// lineStart is the byte at which the line of a byte begins.
func (d *document) lineStart(at int) int { return strings.LastIndexByte(d.text[:at], '\n') + 1 }

// lineEnd is the byte at which the line of a byte ends, before its line break.
func (d *document) lineEnd(at int) int {
	n := strings.IndexByte(d.text[at:], '\n')
	if n < 0 {
		return len(d.text)
	}
	if n > 0 && d.text[at+n-1] == '\r' {
		n--
	}
	return at + n
}

// nextLine is the byte at which the line after one that ends at a byte begins.
func (d *document) nextLine(end int) int {
	n := strings.IndexByte(d.text[end:], '\n')
	if n < 0 {
		return len(d.text)
	}
	return end + n + 1
}

// eol is the line break of the file.
func (d *document) eol() string {
	if i := strings.IndexByte(d.text, '\n'); i > 0 && d.text[i-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}

// leads says whether nothing but blanks stands before a byte on its line.
func (d *document) leads(at int) bool {
	return strings.Trim(d.text[d.lineStart(at):at], " ") == ""
}

// trails says whether only blanks and a comment stand on a line from a byte on.
func (d *document) trails(at int) bool {
	rest := d.text[at:d.lineEnd(at)]
	bare := strings.TrimLeft(rest, " \t")
	return bare == "" || bare[0] == '#' && len(bare) < len(rest)
}

// indent is as many blanks as stand before a byte on its line, however it is filled.
func (d *document) indent(at int) string {
	return strings.Repeat(" ", utf8.RuneCountInString(d.text[d.lineStart(at):at]))
}

// splice puts texts in the place of others; the places are in order and don't overlap.
func (d *document) splice(cuts ...cut) error {
	var b strings.Builder
	at := 0
	for _, c := range cuts {
		b.WriteString(d.text[at:c.from])
		b.WriteString(c.text)
		at = c.to
	}
	b.WriteString(d.text[at:])
	return d.set(b.String())
}

// cut is text from one byte to another, and what takes its place.
type cut struct {
	from, to int
	text     string
}
