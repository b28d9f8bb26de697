package web

import (
	"strings"

	"build.example/turflast/schedule/show/page"
)

// section is a heading with what stands under it.
type section struct {
	Title string
	Level int // of the heading; 0 for none
	Nodes []*node
}

// node is a block as HTML has it.
type node struct {
	Kind  string // para, list, entries, table, legend, lines
	Mark  string // before a paragraph
	Text  []span
	Items []item
	Table *table
	Keys  []key
	Role  string // class of the whole
	Inset bool
}

// item is one line of a list, or of what is done when: a time and a number, and the texts.
type item struct {
	Time, Number string
	Name         []span
	Role         string
	Nodes        []*node
}

type span struct{ Class, Text string }

// ByHand says whether a span is room for a tick or a name, which is drawn in place of its text.
func (s span) ByHand() bool { return s.Class == classes[page.Box] || s.Class == classes[page.Sign] }

type key struct{ Class, Mark, Means string }

type table struct {
	Name  string
	Wide  bool // may be wider than a phone
	Loose bool // no column takes a share of the page's width
	Heads []row
	Rows  []row
}

type row struct {
	Cells []cell
	Notes [][]span
	Over  int // the columns of a note
}

type cell struct {
	Text  []span
	Over  int
	Class string
	Head  string // the scope of a heading cell; empty for none
}

// classes are the classes of the roles.
var classes = [...]string{
	page.Plain: "", page.Quiet: "quiet", page.Strong: "strong", page.Chain: "chain", page.Work: "work",
	page.Living: "living", page.Tight: "tight", page.Late: "late", page.Line: "line", page.Box: "box", page.Sign: "sign",
	page.ChainBar: "bar-chain", page.TightBar: "bar-tight", page.FreeBar: "bar-free", page.DoneBar: "bar-done",
	page.LateBar: "bar-late",
}

// writer turns the blocks of one document into sections.
type writer struct {
	sections []section
	top      int   // level of the document's title
	entry    *item // that indented paragraphs belong to; nil after anything else
}

func (w *writer) document(d *page.Document) {
	w.sections = []section{{}}
	for _, b := range d.Blocks {
		switch b := b.(type) {
		case page.Title:
			w.title(b)
		case page.Heading:
			w.section(string(b), w.top+1)
		case page.Paragraph:
			w.paragraph(b)
		case page.Item:
			w.lead(strings.Fields(glued(b.Lead)), b.Text)
		case page.Whole:
			w.add(&node{Kind: "para", Text: spans(page.Text(b))})
		case page.Legend:
			w.legend(b)
		case *page.Table:
			w.table(b)
		case page.Picture:
			w.picture(b)
		}
	}
}

// section begins a section. Empty ones are left out.
func (w *writer) section(title string, level int) {
	w.entry = nil
	if last := w.sections[len(w.sections)-1]; last.Level == 0 && len(last.Nodes) == 0 {
		w.sections = w.sections[:len(w.sections)-1]
	}
	w.sections = append(w.sections, section{Title: glued(title), Level: level})
}

// title begins the document; what is asked or broken before it comes under it.
func (w *writer) title(t page.Title) {
	text := t.What
	if text == "" {
		text = t.Garden
	}
	if len(w.sections) == 1 && w.sections[0].Level == 0 {
		w.sections[0].Title, w.sections[0].Level = glued(text), w.top
		return
	}
	w.section(text, w.top)
}

func (w *writer) add(n *node) *node {
	w.entry = nil
	last := &w.sections[len(w.sections)-1]
	last.Nodes = append(last.Nodes, n)
	return n
}

// last returns the last node of the section if it is of a kind, else a new one.
func (w *writer) last(kind string) *node {
	nodes := w.sections[len(w.sections)-1].Nodes
	if n := len(nodes); n > 0 && nodes[n-1].Kind == kind {
		return nodes[n-1]
	}
	return w.add(&node{Kind: kind})
}

// bullet is the mark of the lines of a list.
const bullet = "-"

func (w *writer) paragraph(p page.Paragraph) {
	mark := strings.TrimSpace(p.Mark)
	if p.Text.String() == "" {
		return
	}
	switch {
	case number(mark):
		w.lead([]string{mark}, p.Text)
		w.entry.Role = "said"
		return
	case mark == bullet:
		list := w.last("list")
		list.Items = append(list.Items, item{Name: spans(p.Text)})
		return
	}
	n := &node{Kind: "para", Mark: page.Harmless(mark), Text: spans(p.Text), Inset: p.Indent > 0}
	if len(p.Text) == 1 {
		n.Role, n.Text[0].Class = n.Text[0].Class, ""
	}
	if w.entry != nil && p.Indent > 0 {
		n.Inset = false
		w.entry.Nodes = append(w.entry.Nodes, n)
		return
	}
	w.add(n)
}

// lead begins an entry: a number, a time, or both, and a name.
func (w *writer) lead(words []string, text page.Text) {
	entries := w.last("entries")
	x := item{Name: spans(text)}
	for i := range x.Name { // where and by whom follow the name
		if i > 0 && x.Name[i].Class == "" && strings.HasPrefix(x.Name[i].Text, " ·") {
			x.Name[i].Class = "rest"
		}
	}
	if n := len(words); n > 0 && number(words[n-1]) {
		x.Number, words = words[n-1], words[:n-1]
	}
	x.Time = strings.Join(words, " ")
	if len(text) == 1 && text[0].Role == page.Quiet {
		x.Role = "over"
	}
	entries.Items = append(entries.Items, x)
	w.entry = &entries.Items[len(entries.Items)-1]
}

func (w *writer) legend(l page.Legend) {
	n := &node{Kind: "legend"}
	for _, k := range l {
		n.Keys = append(n.Keys, key{classes[k.Role], page.Harmless(k.Mark), glued(k.Means)})
	}
	w.add(n)
}

// The width, in characters, in which a picture made of text is drawn; and how many columns
// a table may have that is never wider than a phone.
const (
	pictureWidth = 64
	phoneColumns = 4
)

// picture adds a picture made of text, line by line.
func (w *writer) picture(p page.Picture) {
	n := &node{Kind: "lines"}
	for _, line := range p(page.Size{Width: pictureWidth, Rows: page.Rows, On: page.Paper{}}) {
		text := make([]span, len(line))
		for i, x := range line {
			text[i] = span{classes[x.Role], page.Harmless(x.Text)}
		}
		n.Items = append(n.Items, item{Name: text})
	}
	w.add(n)
}

func (w *writer) table(t *page.Table) {
	out := &table{Name: glued(t.Name), Wide: len(t.Columns) > phoneColumns, Loose: true}
	for _, c := range t.Columns {
		out.Loose = out.Loose && c.Room > 0
	}
	for i := range t.Rows {
		if r := rowOf(t, i); i < t.Heads {
			out.Heads = append(out.Heads, r)
		} else {
			out.Rows = append(out.Rows, r)
		}
	}
	w.add(&node{Kind: "table", Table: out})
}

func rowOf(t *page.Table, i int) row {
	r, out := &t.Rows[i], row{Over: len(t.Columns)}
	column := 0
	for k, c := range r.Cells {
		x := cell{Text: spans(c.Text), Over: c.Over + 1}
		switch of := &t.Columns[min(column+c.Over, len(t.Columns)-1)]; {
		case of.Right:
			x.Class = "figure"
		case of.Room > 0 && c.Over == 0:
			x.Class = "fixed"
		}
		switch {
		case i < t.Heads && c.Text.String() != "":
			x.Head = "col"
		case i >= t.Heads && t.Sides && k == 0:
			x.Head = "row"
		}
		out.Cells = append(out.Cells, x)
		column += c.Over + 1
	}
	for _, note := range r.Notes {
		out.Notes = append(out.Notes, spans(note))
	}
	return out
}

func spans(t page.Text) []span {
	out := make([]span, len(t))
	for i, x := range t {
		out[i] = span{classes[x.Role], glued(x.Text)}
	}
	return out
}

// number says whether a text is a whole number.
func number(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }

// unbroken is the blank at which no line is broken.
const unbroken = "\u00a0"

// glued is a text without what could do harm, whose figures stay on one line with their
// units. A blank at either end stays.
func glued(s string) string {
	s = strings.ToValidUTF8(page.Harmless(s), "")
	words := page.Words(s)
	if len(words) == 0 {
		return s
	}
	for i, w := range words {
		words[i] = strings.ReplaceAll(w, " ", unbroken)
	}
	text := strings.Join(words, " ")
	if strings.HasPrefix(s, " ") {
		text = " " + text
	}
	if strings.HasSuffix(s, " ") {
		text += " "
	}
	return text
}
