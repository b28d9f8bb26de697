package page_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/mattn/go-runewidth"
	"pgregory.net/rapid"

	"build.example/turflast/schedule/show/page"
)

// example has a block of each kind.
func example() *page.Document {
	d := &page.Document{}
	d.Say("The garden of a house by the river, with a pond and a wall.")
	d.Heading("What breaks")
	d.Broken(0, "Turf is laid 7 h 30 after its keep, and that is too late for it.")
	d.Mark("- ", "a mark hangs before its lines, however many of those there come to be on the page")
	d.Space()
	d.Add(page.Item{Lead: "07:00   3  ",
		Text: page.Text{{Text: "Bed the court on sand and grit "}, {Text: "█", Role: page.Chain}}})
	d.Under(7, "", "Until 12:00 · Court · Masons 2, and a great deal more that is to be said of it")
	d.Broken(7, "Misses its own date.")
	d.Add(page.Legend{
		{Mark: "█", Means: "on the chain", Role: page.Chain},
		{Mark: "▒", Means: "has float"}, {Mark: "!", Means: "breaks a date"},
	})
	t := d.Table(2, page.Column{Room: 11, Gap: 2}, page.Column{Gap: 1}, page.Column{Room: 8})
	t.Wide(page.Over(1, "Court"), page.Cell{Text: page.As(page.Plain, "may slip")})
	t.Row("07:00-12:00", "Bed the court on sand and grit, with boards for the barrows to run on", "3 h")
	t.Note(page.Quiet, "cures 24 h, until Tue 4 May 12:00, and nobody walks on it before that")
	d.Add(page.Picture(func(s page.Size) []page.Text {
		return []page.Text{page.As(page.Work, strings.Repeat("●", s.Rows)+"  ")}
	}))
	return d
}

func text(t *testing.T, d *page.Document, width int) string {
	var b bytes.Buffer
	if err := d.Write(&b, width); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestWide(t *testing.T) {
	want := `The garden of a house by the river, with a pond and a wall.

WHAT BREAKS
! Turf is laid 7 h 30 after its keep, and that is too late for it.
- a mark hangs before its lines, however many of those there come to be on the
  page

07:00   3  Bed the court on sand and grit █
       Until 12:00 · Court · Masons 2, and a great deal more that is to be said
       of it
     ! Misses its own date.
█ on the chain  ▒ has float  ! breaks a date
  Court                                                                 may slip
  07:00-12:00  Bed the court on sand and grit, with boards for the      3 h
               barrows to run on
                 cures 24 h, until Tue 4 May 12:00, and nobody walks on it
                 before that
●●●●●●●●●●
`
	if diff := cmp.Diff(want, text(t, example(), page.Wide)); diff != "" {
		t.Error(diff)
	}
}

func TestNarrow(t *testing.T) {
	want := `The garden of a house by the river, with
a pond and a wall.

WHAT BREAKS
! Turf is laid 7 h 30 after its keep,
  and that is too late for it.
- a mark hangs before its lines, however
  many of those there come to be on the
  page

07:00 3 Bed the court on sand and grit
  █
  Until 12:00 · Court · Masons 2, and a
  great deal more that is to be said of
  it
! Misses its own date.
█ on the chain  ▒ has float
! breaks a date
  Court                         may slip
  07:00-12:00  Bed the court on 3 h
               sand and grit,
               with boards for
               the barrows to
               run on
                 cures 24 h, until Tue 4
                 May 12:00, and nobody
                 walks on it before that
●●●●●●●●●●
`
	if diff := cmp.Diff(want, text(t, example(), page.Narrow)); diff != "" {
		t.Error(diff)
	}
}

func TestRowsFollowWhereColumnsHaveNoRoom(t *testing.T) {
	d := &page.Document{}
	table := d.Table(0, page.Column{Room: 16, Gap: 2}, page.Column{Room: 16, Gap: 2}, page.Column{})
	table.Row("Tue 4 May 07:00", "Tue 4 May 12:00", "Bed the court")
	table.Note(page.Plain, "cures 24 h")
	if diff := cmp.Diff("Tue 4 May 07:00 Tue 4 May 12:00 Bed\n  the court\n  cures 24 h\n",
		text(t, d, page.Narrow)); diff != "" {
		t.Error(diff)
	}
}

func TestNotesStandBesideOnAWidePage(t *testing.T) {
	d := &page.Document{}
	table := d.Table(2, page.Column{Room: 10, Gap: 2})
	table.Row("Tue 4 May")
	table.Note(page.Late, "1 missing from 07:00")
	want := []page.Text{page.As(page.Late, "  Tue 4 May   1 missing from 07:00")}
	if diff := cmp.Diff(want, d.Lines(page.Size{Width: 110})); diff != "" {
		t.Error(diff)
	}
	want = []page.Text{page.As(page.Plain, "  Tue 4 May"),
		{{Text: "    "}, {Text: "1 missing from 07:00", Role: page.Late}}}
	if diff := cmp.Diff(want, d.Lines(page.Size{Width: 109})); diff != "" {
		t.Error(diff)
	}
}

func TestRolesStayWithTheirText(t *testing.T) {
	d := &page.Document{}
	d.Heading("keep")
	d.Add(page.Legend{{Mark: "~", Means: "keeps", Role: page.Living}, {Mark: "!", Means: "too long", Role: page.Late}})
	d.Add(page.Paragraph{Text: page.Text{{Text: "turf "}, {Text: "keeps 24 h", Role: page.Living},
		{Text: " and"}, {Text: " is late", Role: page.Late}}})
	want := []page.Text{
		nil, page.As(page.Strong, "KEEP"), {{Text: "~ ", Role: page.Living}, {Text: "keeps"}},
		{{Text: "! ", Role: page.Late}, {Text: "too long"}}, {{Text: "turf "}, {Text: "keeps", Role: page.Living}},
		{{Text: "24 h ", Role: page.Living}, {Text: "and "}, {Text: "is", Role: page.Late}}, page.As(page.Late, "late"),
	}
	if diff := cmp.Diff(want, d.Lines(page.Size{Width: 11})); diff != "" {
		t.Error(diff)
	}
}

func TestHangingParagraphs(t *testing.T) {
	d := &page.Document{}
	d.Add(page.Paragraph{Mark: "  ", Text: page.As(page.Late, "07:00 the lorry is refused at the gate"), Hang: 6})
	want := []page.Text{
		page.As(page.Late, "  07:00 the lorry"), page.As(page.Late, "        is refused at"),
		page.As(page.Late, "        the gate"),
	}
	if diff := cmp.Diff(want, d.Lines(page.Size{Width: 24})); diff != "" {
		t.Error(diff)
	}
}

func TestMarksAreInTheRoleOfAllTheText(t *testing.T) {
	d := &page.Document{}
	d.Broken(0, "Turf is late")
	d.Add(page.Item{Lead: "07:00 ", Text: page.Text{{Text: "Turf "}, {Text: "█", Role: page.Chain}}})
	want := []page.Text{page.As(page.Late, "! Turf is late"), {{Text: "07:00 Turf "}, {Text: "█", Role: page.Chain}}}
	if diff := cmp.Diff(want, d.Lines(page.Size{Width: page.Wide})); diff != "" {
		t.Error(diff)
	}
}

func TestNothingSaidTakesNoLine(t *testing.T) {
	d := &page.Document{}
	d.Say("")
	d.In(page.Strong, " ")
	d.Add(page.Paragraph{Mark: "! "})
	if lines := d.Lines(page.Size{Width: page.Wide}); len(lines) > 0 {
		t.Errorf("nothing is said in %q", lines)
	}
}

func TestWholeLinesAreNotBroken(t *testing.T) {
	d := &page.Document{}
	d.Add(page.Whole{{Text: "07:00  ", Role: page.Strong}, {Text: "Bed the court on sand"}})
	want := []page.Text{{{Text: "07:00  ", Role: page.Strong}, {Text: "Bed the court on sand"}}}
	if diff := cmp.Diff(want, d.Lines(page.Size{Width: 10})); diff != "" {
		t.Error(diff)
	}
}

func TestCutCellsTakeOneLine(t *testing.T) {
	d := &page.Document{}
	table := d.Table(0, page.Column{Gap: 2, Cut: true, Most: 12}, page.Column{Room: 9, Cut: true})
	table.Row("Bed the court on sand", "Tue 4 May")
	table.As(page.Strong, 0)
	table.Row("Turf", "Wed 5 May 07:00")
	want := []page.Text{
		{{Text: "Bed the cou…", Role: page.Strong}, {Text: "  Tue 4 May"}}, page.As(page.Plain, "Turf          Wed 5 Ma…"),
	}
	if diff := cmp.Diff(want, d.Lines(page.Size{Width: 60})); diff != "" {
		t.Error(diff)
	}
	table.As(page.Strong, 1)
	want[1] = page.As(page.Strong, "Turf          Wed 5 Ma…")
	table.As(page.Strong, 0)
	if diff := cmp.Diff(want, d.Lines(page.Size{Width: 60})); diff != "" {
		t.Error(diff)
	}
	want[0] = page.Text{{Text: "Bed the…", Role: page.Strong}, {Text: "  Tue 4 May"}}
	want[1] = page.As(page.Strong, "Turf      Wed 5 Ma…")
	if diff := cmp.Diff(want, d.Lines(page.Size{Width: 19})); diff != "" {
		t.Error(diff)
	}
}

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		in    string
		width int
		want  []string
	}{
		{"one two three", 7, []string{"one two", "three"}}, {"abcdefgh", 3, []string{"abc", "def", "gh"}},
		{"", 5, nil}, {"庭の石", 5, []string{"庭の", "石"}}, {"a 庭", 1, []string{"a"}},
		{"a chance of 41 %, or", 15, []string{"a chance of", "41 %, or"}},
		{"after 4 h 08 of it", 9, []string{"after", "4 h 08 of", "it"}},
	} {
		if diff := cmp.Diff(c.want, page.Wrap(page.Paper{}, c.in, c.width)); diff != "" {
			t.Errorf("Wrap(%q, %d): %s", c.in, c.width, diff)
		}
	}
}

func TestWholeCellsPushWhatFollows(t *testing.T) {
	d := &page.Document{}
	table := d.Table(0, page.Column{Room: 9, Gap: 2, Whole: true},
		page.Column{Room: 5, Gap: 2}, page.Column{Gap: 1}, page.Column{Room: 4})
	table.Row("Tue 4 May", "07:00", "Bed the court on sand", "3 h")
	table.Row("Tue 4 May 2027", "07:00", "Bed the court on sand", "3 h")
	want := `Tue 4 May  07:00  Bed the court on  3 h
                  sand
Tue 4 May 2027  07:00  Bed the      3 h
                  court on
                  sand
`
	if diff := cmp.Diff(want, text(t, d, page.Narrow)); diff != "" {
		t.Error(diff)
	}
	want = `Tue 4 May  07:00  Bed the  3 h
                  court on
                  sand
Tue 4 May  07:00  Bed the  3 h
2027              court on
                  sand
`
	if diff := cmp.Diff(want, text(t, d, 31)); diff != "" {
		t.Error(diff)
	}
}

// No line is wider than the page, whatever stands on it, and no word is lost.
func TestLinesFit(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		words := rapid.SliceOfN(rapid.SampledFrom([]string{"a", "turf", "Überlänge", "庭の石", "7 h 30", "wheelbarrows"}), 1, 20)
		width := rapid.IntRange(20, 130).Draw(rt, "width")
		said := words.Draw(rt, "said")
		d := &page.Document{}
		d.Under(7, "- ", strings.Join(said, " "))
		table := d.Table(2, page.Column{Room: 12, Gap: 2, Whole: true}, page.Column{}, page.Column{Room: 9})
		table.Row("Tue 4 May 07:00", strings.Join(said, " "), "3 h")
		lines := d.Lines(page.Size{Width: width})
		got := ""
		for _, l := range lines {
			if runewidth.StringWidth(l.String()) > width {
				rt.Fatalf("%q is wider than %d", l, width)
			}
			got += l.String() + " "
		}
		for _, w := range strings.Fields(strings.Join(said, " ")) {
			if len(w) <= 4 && strings.Count(got, w) < 2 {
				rt.Fatalf("%q is lost in %q", w, got)
			}
		}
	})
}
