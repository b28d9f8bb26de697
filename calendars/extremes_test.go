package calendars_test

import (
	"math"
	"runtime"
	"testing"

	"build.example/turflast/calendars"

	"pgregory.net/rapid"
)

const (
	past  = calendars.Past
	never = calendars.Never
	most  = Minutes(math.MaxInt32)
	least = Minutes(math.MinInt32)
)

// Calendars for the ends of the time line: always open, open twice, never open.
var (
	all  = calendars.New([]Span{{past, never}})
	few  = calendars.New([]Span{{1000, 1010}, {1020, 1030}})
	none = calendars.New(nil)

	first, last = all.Next(past), all.Last(never)
)

func pair(a, b Instant) [2]Instant { return [2]Instant{a, b} }

// wantEach compares the first of each pair with the second.
func wantEach(t *testing.T, cases map[string][2]any) {
	t.Helper()
	for name, got := range cases {
		if got[0] != got[1] {
			t.Errorf("%s: got %v, want %v", name, got[0], got[1])
		}
	}
}

// Sums and look-ups near the ends of the time line, and with lengths beyond it.
func TestSumsAtTheEnds(t *testing.T) {
	wantEach(t, map[string][2]any{
		"add beyond":             {few.Add(1000, most), never},
		"add the whole":          {few.Add(past+1, 20), Instant(1030)},
		"add one too many":       {few.Add(past+1, 21), never},
		"add to never":           {few.Add(never, -5), never},
		"add to past":            {few.Add(past, 5), past},
		"add the most negative":  {few.Add(1030, least), past},
		"subtract beyond":        {few.Subtract(1030, most), past},
		"subtract most negative": {few.Subtract(1000, least), never},
		"subtract the whole":     {few.Subtract(never-1, 20), Instant(1000)},
		"subtract one too many":  {few.Subtract(never-1, 21), past},
		"add to always":          {all.Add(first, most), never},
		"all of always":          {all.Add(first, all.Total()), last + 1},
		"between past and never": {few.Between(past, never), Minutes(20)},
		"between never and past": {few.Between(never, past), Minutes(-20)},
		"next of never":          {few.Next(never), never},
		"next of past":           {few.Next(past), Instant(1000)},
		"last of never":          {few.Last(never), Instant(1029)},
		"last of past":           {few.Last(past), past},
		"open at never":          {few.IsOpen(never), false},
		"always open at never":   {all.IsOpen(never), false},
		"always open at past":    {all.IsOpen(past), false},
	})
	if first > -1<<29 || last < 1<<29 {
		t.Errorf("always open from %d to %d only", first, last)
	}
	for s := range few.Openings(1025, 1005) {
		t.Errorf("a span that runs backwards holds %v", s)
	}
}

func TestPlacesAtTheEnds(t *testing.T) {
	wantEach(t, map[string][2]any{
		"place beyond":          {pair(few.Place(1000, most)), pair(never, never)},
		"place from past":       {pair(few.Place(past, 12)), pair(1000, 1022)},
		"place at never":        {pair(few.Place(never, 1)), pair(never, never)},
		"place nothing":         {pair(few.Place(7, 0)), pair(7, 7)},
		"place in always":       {pair(all.Place(last, most)), pair(never, never)},
		"place back beyond":     {pair(few.PlaceBack(1030, most)), pair(past, past)},
		"place back from never": {pair(few.PlaceBack(never, 12)), pair(1008, 1030)},
		"place back at past":    {pair(few.PlaceBack(past, 1)), pair(past, past)},
		"place back nothing":    {pair(few.PlaceBack(7, 0)), pair(7, 7)},
		"place until never":     {pair(few.PlaceUntil(never, 5)), pair(never, never)},
		"place until past":      {pair(few.PlaceUntil(past, 12)), pair(1000, 1022)},
		"place until the last":  {pair(few.PlaceUntil(1030, 12)), pair(1008, 1030)},
		"place until beyond":    {pair(few.PlaceUntil(1031, 12)), pair(never, never)},
		"place until too long":  {pair(few.PlaceUntil(1005, most)), pair(never, never)},
		"place until nothing":   {pair(few.PlaceUntil(7, 0)), pair(7, 7)},
		"fit from past":         {few.Fit(past, 10), Instant(1000)},
		"fit too long":          {few.Fit(past, 11), never},
		"fit the longest":       {few.Fit(1001, most), never},
		"fit at never":          {few.Fit(never, 1), never},
		"fit nothing":           {few.Fit(7, 0), Instant(7)},
		"fit back from never":   {few.FitBack(never, 10), Instant(1020)},
		"fit back too long":     {few.FitBack(never, 11), past},
		"fit back the longest":  {few.FitBack(1030, most), past},
		"fit back at past":      {few.FitBack(past, 1), past},
		"fit back nothing":      {few.FitBack(7, 0), Instant(7)},
		"fit back in always":    {all.FitBack(first+5, 5), first},
	})
}

func TestNeverOpen(t *testing.T) {
	wantEach(t, map[string][2]any{
		"none: next":                 {none.Next(5), never},
		"none: last":                 {none.Last(5), past},
		"none: add":                  {none.Add(5, 1), never},
		"none: subtract":             {none.Subtract(5, 1), past},
		"none: between":              {none.Between(past, never), Minutes(0)},
		"none: place":                {pair(none.Place(5, 1)), pair(never, never)},
		"none: place back":           {pair(none.PlaceBack(5, 1)), pair(past, past)},
		"none: place until":          {pair(none.PlaceUntil(past, 1)), pair(never, never)},
		"none: fit":                  {none.Fit(5, 1), never},
		"none: fit back":             {none.FitBack(5, 1), past},
		"none: open":                 {none.IsOpen(0), false},
		"none: total":                {none.Total(), Minutes(0)},
		"never and its intersection": {calendars.Intersect(none, all), none},
	})
	if s, ok := none.Opening(0); ok {
		t.Errorf("an empty calendar has the opening %v", s)
	}
}

func TestProfileWithoutEnd(t *testing.T) {
	p := calendars.NewProfile([]calendars.Change{{Span{past, never}, 2}, {Span{500, never}, 1}})
	for at, n := range map[Instant]int{past: 2, 0: 2, 499: 2, 500: 3, never - 1: 3} {
		if p.At(at) != n {
			t.Errorf("at %d: %d, want %d", at, p.At(at), n)
		}
	}
	if c := p.AtLeast(3); c.Next(0) != 500 || c.Add(500, 1<<29) != 500+1<<29 {
		t.Error("three are there from 500 on, without end")
	}
	if n := p.Level(4); n != 4 || p.AtLeast(n).Total() != 0 {
		t.Error("four are never there")
	}
	if empty := calendars.NewProfile(nil); empty.Max() != 0 || empty.At(0) != 0 {
		t.Error("no change is a count of zero")
	}
}

// steps are openings of rising length, one after another: every one is too
// short for the next one's length.
func steps(n int) []Span {
	var out []Span
	t := Instant(0)
	for i := range n {
		out = append(out, Span{t, t + Instant(i+1)})
		t += Instant(i + 2)
	}
	return out
}

func TestFitAmongShortOpenings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 70).Draw(t, "n")
		spans := steps(n)
		c := calendars.New(spans)
		w := rapid.IntRange(1, n+1).Draw(t, "w")
		if w > n {
			want(t, "Fit", c.Fit(0, Minutes(w)), never)
			want(t, "FitBack", c.FitBack(never, Minutes(w)), past)
			return
		}
		from := rapid.IntRange(0, n-1).Draw(t, "from")
		want(t, "Fit", c.Fit(spans[from].Start, Minutes(w)), spans[max(from, w-1)].Start)
		back := spans[from].End - Instant(w)
		if w > from+1 {
			back = past
		}
		want(t, "FitBack", c.FitBack(spans[from].End, Minutes(w)), back)
	})
}

// Memory follows the number of openings, not the time between them.
func TestFarApartOpeningsTakeLittleMemory(t *testing.T) {
	spans := []Span{{0, 10}, {100 * 366 * 1440, 100*366*1440 + 10}}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	c := calendars.New(spans)
	runtime.ReadMemStats(&after)
	if got := after.TotalAlloc - before.TotalAlloc; got > 16<<10 {
		t.Errorf("two openings a century apart take %d bytes", got)
	}
	if got := c.Add(5, 10); got != spans[1].Start+5 {
		t.Errorf("Add over the century: %d", got)
	}
}

func TestOperationsDoNotAllocate(t *testing.T) {
	c := calendars.New(steps(300))
	p := calendars.NewProfile([]calendars.Change{{Span{5, 900}, 2}, {Span{50, 700}, 3}})
	at := moments(Span{0, 40000})
	for _, op := range operations {
		if n := testing.AllocsPerRun(1, func() { op.all(c, at) }); n != 0 {
			t.Errorf("%s allocates %v times", op.name, n)
		}
	}
	if n := testing.AllocsPerRun(1, func() { c.IsOpen(7); c.Opening(7); p.At(60); p.Max(); p.Level(3) }); n != 0 {
		t.Errorf("look-ups allocate %v times", n)
	}
}
