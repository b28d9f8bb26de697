package draw_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"build.example/turflast/schedule/show/page"
	"build.example/turflast/tui/draw"
)

func TestClean(t *testing.T) {
	for in, want := range map[string]string{
		"plain": "plain", " spaces ": "spaces", "a\tb\r\nc": "a b  c", "\x1b[31mred": "[31mred", "bell\a": "bell",
		"\u202eback": "back", "\xffbad": "bad", "庭": "庭", "👩‍👧": "👩‍👧", "\u009bcsi": "csi",
	} {
		if got := draw.Clean(in); got != want {
			t.Errorf("Clean(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestCut(t *testing.T) {
	for _, c := range []struct {
		in    string
		width int
		want  string
	}{
		{"short", 5, "short"}, {"longer", 5, "long…"}, {"a bcd", 3, "a…"}, {"庭の石", 4, "庭…"}, {"庭の石", 6, "庭の石"},
		{"x", 0, ""}, {"xy", 1, "…"}, {"", 3, ""},
	} {
		if got := draw.Cut(c.in, c.width); got != c.want {
			t.Errorf("Cut(%q, %d) = %q, want %q", c.in, c.width, got, c.want)
		}
	}
}

// lines are a text laid out for a width.
func lines(text string, width int) []string {
	var out []string
	d := &page.Document{}
	d.Say(text)
	for _, l := range draw.Lines(d, width, page.Rows) {
		out = append(out, l.String())
	}
	return out
}

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		in    string
		width int
		want  []string
	}{
		{"one two three", 7, []string{"one two", "three"}}, {"abcdefgh", 3, []string{"abc", "def", "gh"}},
		{"", 5, nil}, {"庭の石", 5, []string{"庭の", "石"}}, {"a 庭", 1, []string{"a"}},
	} {
		if d := cmp.Diff(c.want, lines(c.in, c.width)); d != "" {
			t.Errorf("lines(%q, %d): %s", c.in, c.width, d)
		}
	}
}

// TestWrapKeepsWords checks that no line is too wide and, where every word
// fits, no word is lost.
func TestWrapKeepsWords(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		text, width := draw.Clean(names().Draw(rt, "text")), rapid.IntRange(2, 40).Draw(rt, "width")
		got := lines(text, width)
		fits := true
		for _, w := range strings.Fields(text) {
			fits = fits && draw.Columns(w) <= width
		}
		for _, l := range got {
			if draw.Columns(l) > width {
				rt.Fatalf("%q is wider than %d", l, width)
			}
		}
		if got, want := strings.Join(got, " "), strings.Join(strings.Fields(text), " "); fits && got != want {
			rt.Fatalf("got %q, want %q", got, want)
		}
	})
}
