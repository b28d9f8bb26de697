// Package page is what a page says, apart from how it looks: headings, paragraphs,
// tables and pictures, whose text has roles. A document is built once from a result
// and laid out for as many columns as there are, on paper or on a screen; what a role
// looks like is for the one who shows it.
package page

// Role is what a piece of text is about, or how it stands to the text around it.
type Role uint8

// The roles.
const (
	Plain  Role = iota
	Quiet       // hints and rules: fine as they are
	Strong      // headings, and what is in hand
	Chain       // work that fixes the hand-over
	Work        // other work
	Living      // living stock
	Tight       // no room left
	Late        // a date that breaks, or what is missing
	Line        // the hand-over line
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

// String is the text without its roles.
func (t Text) String() string {
	s := ""
	for _, x := range t {
		s += x.Text
	}
	return s
}

// Role is the first role of a text that isn't plain.
func (t Text) Role() Role {
	for _, x := range t {
		if x.Role != Plain {
			return x.Role
		}
	}
	return Plain
}

// Document is a page in the making: its blocks from the top. Its methods add to it.
type Document struct {
	Blocks []Block
}

// Block is one of [Heading], [Paragraph], [Item], [Whole], [Space], [Legend], [Picture]
// and [*Table].
type Block interface {
	lay(s Size) []Text
}

// Heading begins a section.
type Heading string

// Paragraph is running text. A mark stands before its first line, to the left of its
// margin where that has room for it, in the role of a text that has one. Without text it
// takes no line.
type Paragraph struct {
	Indent int // in characters, where the page has room
	Mark   string
	Text   Text
	Hang   int // how much farther in the lines after the first stand
}

// Item is a text with what leads to it, such as its time and number: beside it, or
// before it where a page is narrow.
type Item struct {
	Lead string
	Text Text
}

// Whole is a text on one line. Who shows it cuts it where there is no room.
type Whole Text

// Space keeps apart what it stands between.
type Space struct{}

// Legend explains marks.
type Legend []Key

// Key is a mark and what it means.
type Key struct {
	Mark, Means string
	Role        Role // of the mark
}

// Picture is drawn for the size that it has.
type Picture func(s Size) []Text

// Heading begins a section.
func (d *Document) Heading(text string) { d.Add(Heading(text)) }

// Say adds a paragraph, or nothing where there is nothing to say.
func (d *Document) Say(text string) { d.Mark("", text) }

// In adds a paragraph in one role, or nothing where there is nothing to say.
func (d *Document) In(role Role, text string) {
	if text != "" {
		d.Add(Paragraph{Text: As(role, text)})
	}
}

// Mark adds a paragraph with a mark before it.
func (d *Document) Mark(mark, text string) { d.Under(0, mark, text) }

// Under adds a paragraph that stands under what it tells of, by an indent in
// characters.
func (d *Document) Under(indent int, mark, text string) {
	if text != "" {
		d.Add(Paragraph{Indent: indent, Mark: mark, Text: As(Plain, text)})
	}
}

// BreakMark stands before a date that breaks.
const BreakMark = "! "

// Broken adds what is said of a date that breaks, behind an indent in characters.
func (d *Document) Broken(indent int, text string) {
	d.Add(Paragraph{Indent: indent, Mark: BreakMark, Text: As(Late, text)})
}

// Space keeps what follows apart from what stands above.
func (d *Document) Space() { d.Add(Space{}) }

// Add adds blocks.
func (d *Document) Add(blocks ...Block) { d.Blocks = append(d.Blocks, blocks...) }

// Table adds a table, whose rows are to follow.
func (d *Document) Table(indent int, columns ...Column) *Table {
	t := &Table{Indent: indent, Columns: columns}
	d.Add(t)
	return t
}

// Column is a column of a table.
type Column struct {
	Room int // characters that its text usually takes; 0 for a share of what is left
	Gap  int // characters between it and the next
	// Right says that its text stands at its right edge, as figures do under each other.
	Right bool
	// Whole says that its text isn't broken where a share can give the room for it.
	Whole bool
	// Cut says that its text is cut rather than broken, for a list of one line a row.
	Cut bool
	// Most is the most characters that a share takes; 0 for all there are.
	Most int
}

// Table is rows of cells, each broken to its column.
type Table struct {
	Indent  int // in characters
	Columns []Column
	Rows    []Row
}

// Row is the cells of one row from the left, and what is said under it.
type Row struct {
	Cells []Cell
	Notes []Text
}

// Cell is the text of one column, or of more side by side.
type Cell struct {
	Text Text
	Over int // columns beyond its own
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

// Wide adds a row of cells that may go over more than one column.
func (t *Table) Wide(cells ...Cell) { t.Rows = append(t.Rows, Row{Cells: cells}) }

// Over is a cell over more columns than its own.
func Over(more int, text string) Cell { return Cell{As(Plain, text), more} }

// Note adds what is said under the last row, or nothing where that is empty.
func (t *Table) Note(role Role, text string) {
	if last := &t.Rows[len(t.Rows)-1]; text != "" {
		last.Notes = append(last.Notes, As(role, text))
	}
}
