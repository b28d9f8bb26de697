// Package page describes what a page says, apart from how it looks: headings,
// paragraphs, tables and pictures, whose text has roles. A document is built once from a
// result and laid out for any number of columns, on paper or on a screen. Whatever shows
// the page decides how a role looks.
package page

import "strings"

// Role is what a piece of text is about, or how much it stands out.
type Role uint8

// The roles.
const (
	Plain  Role = iota
	Quiet       // hints, rules, and what is finished
	Strong      // headings, and what is in hand
	Chain       // work that fixes the hand-over
	Work        // other work
	Living      // living stock
	Tight       // no room left
	Late        // a date that breaks, or what is missing
	Line        // the hand-over line
	Box         // a box to tick by hand, see [ToTick]
	Sign        // room to write in by hand, see [ToSign]

	// Those of bars, and of what is written on them.
	ChainBar // of what fixes the hand-over
	TightBar // of what may slip little
	FreeBar  // of what may slip more
	DoneBar  // of what is done
	LateBar  // of what breaks a date, or lies beyond the line
)

// Span is a piece of text in one role.
type Span struct {
	Text string
	Role Role
}

// Text is a text in spans: a paragraph, a cell, or one line of a page.
type Text []Span

// As is text in one role.
func As(role Role, text string) Text { return Text{{text, role}} }

// ToTick is a box to tick by hand. Its text is what plain paper has in its place.
func ToTick() Span { return Span{"[ ]", Box} }

// ToSign is room to write in by hand, so many characters wide. Its text is the rule that
// plain paper has in its place.
func ToSign(characters int) Span { return Span{strings.Repeat("_", characters), Sign} }

// String is the text without its roles.
func (t Text) String() string {
	s := ""
	for _, x := range t {
		s += x.Text
	}
	return s
}

// Role is the first role in a text that isn't Plain, or else Plain.
func (t Text) Role() Role {
	for _, x := range t {
		if x.Role != Plain {
			return x.Role
		}
	}
	return Plain
}

// Document is a page: its blocks from the top.
type Document struct {
	Blocks []Block
}

// Block is one of [Title], [Heading], [Paragraph], [Item], [Whole], [Space], [Legend],
// [Picture] and [*Table].
type Block interface {
	lay(s Size) []Text
}

// Title names a page: the garden, and what the page says of it, which may be empty.
type Title struct{ Garden, What string }

// Heading begins a section.
type Heading string

// Paragraph is running text, broken into lines. Without text it takes no line. Its mark
// stands before the first line, within the indent if it fits there. The mark of a text
// in one role has that role; any other is plain.
type Paragraph struct {
	Indent int // in characters, where the page has room
	Mark   string
	Text   Text
	Hang   int // extra indent of the lines after the first
}

// Item is a text with a lead, such as its time and number. On a wide page all lines of
// the text stand to the right of the lead; on a narrow one the text goes on after the
// lead in one paragraph.
type Item struct {
	Lead string
	Text Text
}

// Whole is a text on one line, which is never broken. Whatever shows it cuts it to fit.
type Whole Text

// Space is an empty line.
type Space struct{}

// Legend explains marks.
type Legend []Key

// Key is a mark and what it means.
type Key struct {
	Mark, Means string
	Role        Role // of the mark
}

// Picture draws the lines of a picture for a size.
type Picture func(s Size) []Text

// Title adds the name of the page.
func (d *Document) Title(garden, what string) { d.Add(Title{garden, what}) }

// Heading adds a heading.
func (d *Document) Heading(text string) { d.Add(Heading(text)) }

// Say adds a paragraph, or nothing if text is empty.
func (d *Document) Say(text string) { d.Mark("", text) }

// Section adds a heading and a paragraph each of some sentences, or nothing without any.
func (d *Document) Section(heading string, sentences []string) {
	if len(sentences) > 0 {
		d.Heading(heading)
	}
	for _, s := range sentences {
		d.Say(s)
	}
}

// In adds a paragraph in one role, or nothing if text is empty.
func (d *Document) In(role Role, text string) {
	if text != "" {
		d.Add(Paragraph{Text: As(role, text)})
	}
}

// Mark adds a paragraph with a mark before it, or nothing if text is empty.
func (d *Document) Mark(mark, text string) { d.Under(0, mark, text) }

// Under adds a paragraph with a mark and an indent in characters, or nothing if text is
// empty.
func (d *Document) Under(indent int, mark, text string) {
	if text != "" {
		d.Add(Paragraph{Indent: indent, Mark: mark, Text: As(Plain, text)})
	}
}

// BreakMark stands before a date that breaks.
const BreakMark = "! "

// Broken adds a paragraph about a date that breaks, with an indent in characters.
func (d *Document) Broken(indent int, text string) {
	d.Add(Paragraph{Indent: indent, Mark: BreakMark, Text: As(Late, text)})
}

// Space adds an empty line.
func (d *Document) Space() { d.Add(Space{}) }

// Add adds blocks.
func (d *Document) Add(blocks ...Block) { d.Blocks = append(d.Blocks, blocks...) }

// Table adds a table without rows and returns it, for the caller to add them.
func (d *Document) Table(indent int, columns ...Column) *Table {
	t := &Table{Indent: indent, Columns: columns}
	d.Add(t)
	return t
}

// Column is a column of a table.
type Column struct {
	Room int // width in characters; 0 for an equal share of what is left
	Gap  int // characters up to the next column
	// Right sets the text at the right edge, as figures are.
	Right bool
	// Whole keeps the text on one line if a column that takes a share has the room to spare.
	Whole bool
	// Cut cuts the text instead of breaking it, for a list with one line a row.
	Cut bool
	// Most is the most characters of a column that takes a share; 0 for no limit.
	Most int
}

// Table is rows of cells, each broken to its column.
type Table struct {
	Name    string // what it is of, for those who can't see what stands above it; may be empty
	Heads   int    // so many rows at its top name its columns
	Sides   bool   // the first cell of each other row names it
	Indent  int    // in characters
	Columns []Column
	Rows    []Row
}

// Row is the cells of a row from the left, and its notes, which stand under it, or
// beside it on a wide page.
type Row struct {
	Cells []Cell
	Notes []Text
}

// Cell is the text of one column, or of several adjacent ones.
type Cell struct {
	Text Text
	Over int // how many more columns it spans
}

// Row adds a row of plain cells.
func (t *Table) Row(cells ...string) {
	var row Row
	for _, text := range cells {
		row.Cells = append(row.Cells, Cell{Text: As(Plain, text)})
	}
	t.Rows = append(t.Rows, row)
}

// Marked adds a row of plain cells behind a mark in a role.
func (t *Table) Marked(role Role, mark string, cells ...string) {
	t.Row(append([]string{mark}, cells...)...)
	t.As(role, 0)
}

// As gives a cell of the last row a role.
func (t *Table) As(role Role, column int) {
	text := t.Rows[len(t.Rows)-1].Cells[column].Text
	for i := range text {
		text[i].Role = role
	}
}

// Wide adds a row of cells that may span several columns.
func (t *Table) Wide(cells ...Cell) { t.Rows = append(t.Rows, Row{Cells: cells}) }

// Over is a plain cell that spans more columns beyond its own.
func Over(more int, text string) Cell { return Cell{As(Plain, text), more} }

// Note adds a note to the last row, or nothing if text is empty.
func (t *Table) Note(role Role, text string) {
	if last := &t.Rows[len(t.Rows)-1]; text != "" {
		last.Notes = append(last.Notes, As(role, text))
	}
}
