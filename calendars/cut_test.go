package calendars_test

import (
	"slices"
	"testing"

	"build.example/turflast/calendars"

	"pgregory.net/rapid"
)

// A cut calendar is the part of the calendar outside the spans, whatever was
// cut before in the same memory.
func TestCut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const end = 2000
		spans := func(name string) []Span {
			var out []Span
			at := Instant(0)
			for range rapid.IntRange(0, 12).Draw(t, name) {
				at += Instant(rapid.IntRange(0, 200).Draw(t, "gap"))
				to := at + Instant(rapid.IntRange(1, 200).Draw(t, "length"))
				out = append(out, Span{Start: at, End: to})
				at = to
			}
			return out
		}
		var cut calendars.Cut
		for range 3 {
			c, without := calendars.New(spans("open")), spans("without")
			from := Instant(rapid.IntRange(0, end).Draw(t, "from"))
			to := from + Instant(rapid.IntRange(0, end).Draw(t, "to"))
			var rest []Span
			at := from
			for _, s := range without {
				rest = append(rest, Span{Start: at, End: min(to, max(at, s.Start))})
				at = max(at, s.End)
			}
			rest = append(rest, Span{Start: at, End: to})
			want := calendars.Intersect(c, calendars.New(rest))
			got := cut.Of(c, Span{Start: from, End: to}, without)
			if a, b := slices.Collect(got.Openings(0, 1<<20)), slices.Collect(want.Openings(0, 1<<20)); !slices.Equal(a, b) {
				t.Fatalf("open %v, want %v", a, b)
			}
			for at := Instant(0); at < 3000; at += 17 {
				for _, work := range []Minutes{1, 90, 400} {
					s1, f1 := got.Place(at, work)
					s2, f2 := want.Place(at, work)
					if s1 != s2 || f1 != f2 || got.Fit(at, work) != want.Fit(at, work) || got.Add(at, work) != want.Add(at, work) {
						t.Fatalf("%d minutes from %d: placed at %d to %d, want %d to %d", work, at, s1, f1, s2, f2)
					}
				}
			}
		}
	})
}

func TestCutAllocatesNothing(t *testing.T) {
	var spans, wet []Span
	for day := Instant(0); day < 300*1440; day += 1440 {
		spans = append(spans, Span{Start: day + 420, End: day + 1080})
		if day%7200 == 0 {
			wet = append(wet, Span{Start: day, End: day + 1440})
		}
	}
	c := calendars.New(spans)
	var cut calendars.Cut
	all := Span{Start: 0, End: 300 * 1440}
	cut.Of(c, all, nil)
	if n := testing.AllocsPerRun(100, func() { cut.Of(c, all, wet) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func BenchmarkCut(b *testing.B) {
	var spans, wet []Span
	for day := Instant(0); day < 400*1440; day += 1440 {
		spans = append(spans, Span{Start: day + 420, End: day + 720}, Span{Start: day + 750, End: day + 1080})
		if day%4320 == 0 {
			wet = append(wet, Span{Start: day, End: day + 1440})
		}
	}
	c := calendars.New(spans)
	var cut calendars.Cut
	for b.Loop() {
		cut.Of(c, Span{Start: 0, End: 90 * 1440}, wet)
	}
}
