package page

import (
	"bufio"
	"io"
	"slices"
	"strings"
)

// Size is what there is to lay a page out on.
type Size struct {
	Width int // in columns
	Rows  int // the most rows of a picture
	On    Medium
}

// The usual widths in columns, and the rows of a picture.
const (
	Wide   = 80
	Narrow = 40
	Rows   = 10
)

// From indentWidth columns on, indents are as asked for. From besideWidth on, the notes
// of a table none of whose columns takes a share stand beside their row.
const (
	indentWidth = 60
	besideWidth = 110
)

// Lines lays a document out.
func (d *Document) Lines(s Size) []Text {
	if s.On == nil {
		s.On = Paper{}
	}
	var lines []Text
	for _, b := range d.Blocks {
		for _, line := range b.lay(s) {
			lines = append(lines, line.trim())
		}
	}
	return lines
}

// Write writes a document as plain text of a width in columns. The error is the
// writer's.
func (d *Document) Write(out io.Writer, width int) error {
	w := bufio.NewWriter(out)
	for _, line := range d.Lines(Size{Width: width, Rows: Rows}) {
		w.WriteString(line.String())
		w.WriteByte('\n')
	}
	return w.Flush()
}

// trim leaves out the spaces at the end of a line.
func (t Text) trim() Text {
	for len(t) > 0 {
		last := &t[len(t)-1]
		if last.Text = strings.TrimRight(last.Text, " "); last.Text != "" {
			break
		}
		t = t[:len(t)-1]
	}
	return t
}

// pad fills a line with spaces up to a width in columns.
func (s Size) pad(t Text, columns int) Text { return s.fill(t, columns, Plain) }

// fill is pad with spaces in a role.
func (s Size) fill(t Text, columns int, role Role) Text {
	return t.append(strings.Repeat(" ", max(0, columns-s.On.Columns(t.String()))), role)
}

// cut is a text cut to one line of at most the columns; what is cut is in the first role
// of the text that isn't plain.
func (s Size) cut(t Text, columns int) Text {
	whole, _ := flat(s.On, t)
	if s.On.Columns(whole) <= columns {
		return t
	}
	return As(t.Role(), Cut(s.On, whole, columns))
}

// indent is n characters, but at most 2 on a narrow page.
func (s Size) indent(n int) int {
	if s.Width < indentWidth {
		return min(n, 2)
	}
	return n
}

func (t Title) lay(s Size) []Text {
	text := t.Garden
	if t.What != "" {
		text += " · " + t.What
	}
	return Paragraph{Text: As(Strong, text)}.lay(s)
}

func (h Heading) lay(s Size) []Text {
	return append([]Text{nil}, wrap(s.On, As(Strong, strings.ToUpper(string(h))), s.Width)...)
}

func (p Paragraph) lay(s Size) []Text {
	mark := s.On.Columns(p.Mark)
	margin := max(s.indent(p.Indent), mark)
	lines := wrap(s.On, p.Text, s.Width-margin-p.Hang)
	if lines[0] == nil {
		return nil
	}
	role := Plain
	if len(p.Text) == 1 {
		role = p.Text[0].Role
	}
	for i, line := range lines {
		lead := strings.Repeat(" ", margin-mark) + p.Mark
		if i > 0 {
			lead = strings.Repeat(" ", margin+p.Hang)
		}
		lines[i] = Text(nil).append(lead, role).plus(line)
	}
	return lines
}

func (x Item) lay(s Size) []Text {
	if margin := s.On.Columns(x.Lead); s.Width >= indentWidth {
		return Paragraph{Indent: margin, Mark: x.Lead, Text: x.Text}.lay(s)
	}
	margin := s.indent(s.Width)
	lines := wrap(s.On, append(As(Plain, x.Lead), x.Text...), s.Width-margin)
	for i := range lines[1:] {
		lines[i+1] = s.pad(nil, margin).plus(lines[i+1])
	}
	return lines
}

func (w Whole) lay(s Size) []Text {
	var line Text
	for _, x := range w {
		line = line.append(s.On.Clean(x.Text), x.Role)
	}
	return []Text{line}
}

func (Space) lay(Size) []Text { return []Text{nil} }

func (l Legend) lay(s Size) []Text {
	var lines []Text
	for _, k := range l {
		text := As(k.Role, k.Mark).append(" "+k.Means, Plain)
		n := len(lines)
		if n > 0 && s.On.Columns(lines[n-1].String())+2+s.On.Columns(text.String()) <= s.Width {
			lines[n-1] = lines[n-1].append("  ", Plain).plus(text)
			continue
		}
		lines = append(lines, wrap(s.On, text, s.Width)...)
	}
	return lines
}

func (p Picture) lay(s Size) []Text { return p(s) }

// leastShare is the least width, in characters, of a column that takes a share of what
// is left. Where a table hasn't room for it, each row is laid out as a paragraph.
const leastShare = 8

func (t *Table) lay(s Size) []Text {
	rooms, shared := t.rooms(s)
	var lines []Text
	for i := range t.Rows {
		row := &t.Rows[i]
		switch {
		case rooms == nil:
			lines = append(lines, row.inline(s)...)
		case shared < 0 && s.Width >= besideWidth && len(row.Notes) > 0:
			lines = append(lines, t.beside(s, row, rooms)...)
			continue
		default:
			lines = append(lines, t.row(s, row, rooms)...)
		}
		margin := s.indent(t.Indent + 2)
		if rooms != nil && shared >= 0 {
			margin = t.start(rooms, shared) + 2
		}
		for _, note := range row.Notes {
			for _, line := range wrap(s.On, note, s.Width-margin) {
				lines = append(lines, s.pad(nil, margin).plus(line))
			}
		}
	}
	return lines
}

// rooms returns the widths of the columns, nil where the page is too narrow for them,
// and the first column that takes a share, -1 if none does.
func (t *Table) rooms(s Size) (rooms []int, shared int) {
	left, shares, shared := s.Width-t.Indent, 0, -1
	for i, c := range t.Columns {
		left -= c.Room + c.Gap
		if c.Room > 0 {
			continue
		}
		if shares++; shared < 0 {
			shared = i
		}
	}
	if left < shares*leastShare {
		return nil, shared
	}
	for _, c := range t.Columns {
		if c.Room == 0 {
			c.Room = left / shares
			if c.Most > 0 {
				c.Room = min(c.Room, c.Most)
			}
		}
		rooms = append(rooms, c.Room)
	}
	return rooms, shared
}

// start is where a column begins.
func (t *Table) start(rooms []int, column int) int {
	at := t.Indent
	for i := range column {
		at += rooms[i] + t.Columns[i].Gap
	}
	return at
}

// row lays out a row, each cell broken to its columns. A cell of a Whole column that is
// too wide pushes the cells after it to the right, up to the next column that takes a
// share, if that has the room to spare.
func (t *Table) row(s Size, row *Row, rooms []int) []Text {
	var lines []Text
	column, pushed, role := 0, 0, row.role()
	for _, cell := range row.Cells {
		from, last := t.start(rooms, column), min(column+cell.Over, len(rooms)-1)
		at, room := from+pushed, t.start(rooms, last)+rooms[last]-from
		if t.shares(column, last) {
			room, pushed = room-pushed, 0
		}
		over := s.On.Columns(cell.Text.String()) - room
		if over > 0 && t.Columns[column].Whole && pushed+over <= t.spare(rooms, last) {
			room, pushed = room+over, pushed+over
		}
		parts := []Text{s.cut(cell.Text, room)}
		if !t.Columns[last].Cut {
			parts = wrap(s.On, cell.Text, room)
		}
		for k, part := range parts {
			if t.Columns[last].Right {
				part = s.pad(nil, room-s.On.Columns(part.String())).plus(part)
			}
			if k == len(lines) {
				lines = append(lines, nil)
			}
			lines[k] = s.fill(lines[k], at, role).plus(part)
			at = from
		}
		column = last + 1
	}
	return lines
}

// role is the role that all cells of a row have, Plain if they differ.
func (row *Row) role() Role {
	role := row.Cells[0].Text.Role()
	for _, cell := range row.Cells {
		for _, x := range cell.Text {
			if x.Role != role {
				return Plain
			}
		}
	}
	return role
}

// shares says whether any of the columns takes a share of what is left.
func (t *Table) shares(first, last int) bool {
	return slices.ContainsFunc(t.Columns[first:last+1], func(c Column) bool { return c.Room == 0 })
}

// spare is how far the cells after a column can be pushed to the right: what the next
// column that takes a share has beyond leastShare.
func (t *Table) spare(rooms []int, column int) int {
	for i := column + 1; i < len(rooms); i++ {
		if t.Columns[i].Room == 0 {
			return rooms[i] - leastShare
		}
	}
	return 0
}

// beside lays out a row with its notes to the right. A line with a note takes the role
// of the note.
func (t *Table) beside(s Size, row *Row, rooms []int) []Text {
	margin := t.start(rooms, len(rooms))
	lines := t.row(s, row, rooms)
	k := 0
	for _, note := range row.Notes {
		for _, part := range wrap(s.On, note, s.Width-margin) {
			if k == len(lines) {
				lines = append(lines, nil)
			}
			lines[k] = As(note.Role(), s.pad(lines[k], margin).String()+part.String())
			k++
		}
	}
	return lines
}

// inline lays out a row as a paragraph of its cells.
func (row *Row) inline(s Size) []Text {
	var text Text
	for _, cell := range row.Cells {
		text = text.append(" ", Plain).plus(cell.Text)
	}
	lines := wrap(s.On, text, s.Width-2)
	for i := range lines[1:] {
		lines[i+1] = s.pad(nil, 2).plus(lines[i+1])
	}
	return lines
}
