// Package web writes documents as HTML: one file a page, which needs nothing else. It has no
// script, asks for nothing over a network, follows the reader's choice of light or dark, and
// prints on paper with a page number and what the sheet belongs to on every page. What the
// page says comes from package page; here it gets its structure (headings, lists, tables)
// and its look, by the role of each piece of text.
package web

import (
	"embed"
	"html/template"
	"io"
	"slices"
	"strings"

	"build.example/turflast/schedule/show/page"
)

// Page is one HTML file.
type Page struct {
	Garden string
	Title  string // what the page is: of the tab, and its first heading where there are several parts
	Issue  string // the numbered printing that it belongs to, as words
	AsAt   string // the moment that it is of, as words
	Copy   string // whose copy it is
	Parts  []Part
	Sheet  Sheet
	Tight  bool   // it is to go on one sheet: printed in small letters
	Home   string // the file of the page that lists this one; empty for none
}

// Part is what begins on a new sheet of paper: a picture, a document, or a document under a
// picture.
type Part struct {
	Picture template.HTML // SVG, made by our own code with every text escaped; empty for none
	Within  bool          // the picture stands after the document's first section, as wide as that
	Name    string        // of the picture, for those who can't see it
	Doc     *page.Document
	Copy    string // whose copy it is, where that isn't the page's
	Aside   bool   // the document says again what the picture shows: it is for screens
	Links   []Link // to other pages, after all else
}

// Link is a page that another one lists.
type Link struct{ File, Name, Says string }

// Sheet is the paper that a page is printed on.
type Sheet struct {
	Width, Height int // in millimetres
	Margin        int
}

// The usual sheets of paper.
var (
	A4    = Sheet{210, 297, 12}
	Wide4 = Sheet{297, 210, 12}
	A3    = Sheet{420, 297, 0}
	A2    = Sheet{594, 420, 0}
)

//go:embed page.html page.css
var files embed.FS

var (
	layout = template.Must(template.ParseFS(files, "page.html"))
	style  = must(files.ReadFile("page.css"))
)

func must(text []byte, err error) string {
	if err != nil {
		panic(err) // the file is built in
	}
	return string(text)
}

// Mark is in the first lines of every page, and tells the pages of this program from others'
// files.
const Mark = `<meta name="generator" content="turflast">`

// PictureMark does the same for a picture alone.
const PictureMark = `<svg xmlns="http://www.w3.org/2000/svg" class="wall"`

// view is what the template of a page is filled with.
type view struct {
	*Page
	Parts []part
	Mark  template.HTML
	Style template.CSS
	Foot  string // on every printed page
}

type part struct {
	Part
	Before, Sections []section // before the picture, and after it
	Pictured         bool      // the picture is the page
}

func newPart(x Part, sections []section) part {
	x.Name, x.Copy, x.Links = glued(x.Name), glued(x.Copy), slices.Clone(x.Links)
	for i := range x.Links {
		x.Links[i].Name, x.Links[i].Says = glued(x.Links[i].Name), glued(x.Links[i].Says)
	}
	p := part{Part: x, Sections: sections, Pictured: x.Picture != "" && !x.Within}
	if x.Within && len(sections) > 0 {
		p.Before, p.Sections = sections[:1], sections[1:]
	}
	return p
}

// Write writes a page. The error is the writer's.
func (p *Page) Write(out io.Writer) error {
	q := *p
	for _, text := range []*string{&q.Garden, &q.Title, &q.Issue, &q.AsAt, &q.Copy} {
		*text = glued(*text)
	}
	foot := []string{q.Garden, q.Title, q.Issue, q.AsAt, q.Copy}
	v := view{Page: &q, Mark: Mark, Style: template.CSS(style), Foot: strings.Join(foot, " · ")}
	top := 1
	if len(p.Parts) > 1 {
		top = 2
	}
	for _, x := range p.Parts {
		w := writer{top: top}
		if x.Doc != nil {
			w.document(x.Doc)
		}
		v.Parts = append(v.Parts, newPart(x, w.sections))
	}
	return layout.Execute(out, v)
}

// Single says whether the page has one part, which brings its first heading.
func (v view) Single() bool { return len(v.Parts) == 1 }
