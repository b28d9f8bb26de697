package odds_test

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/relief"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/verify"
)

// told is a page of odds, as one line of text, and what its figures are counted from again: all
// builds, built once more.
type told struct {
	testing.TB
	c     network.Case
	r     *odds.Result
	helps *relief.Result
	text  string

	all, other []odds.Outcome // of the way that is told, and of the other
}

// tell makes the page of a programme.
func tell(t testing.TB, c network.Case, o odds.Options) *told {
	ctx := context.Background()
	x := &told{TB: t, c: c}
	var err error
	if x.r, err = odds.Better(ctx, c, o); err != nil {
		t.Fatal(err)
	}
	if x.r.Harmed, err = odds.Harms(ctx, c, x.r.Options); err != nil {
		t.Fatal(err)
	}
	some := x.r.Options
	some.Builds = x.r.Harmed.Builds
	if x.helps, err = relief.Find(ctx, c, some, x.r.Harmed.Harms); err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := report.New(c).Helping(x.helps).Odds(x.r).Write(&b, 80); err != nil {
		t.Fatal(err)
	}
	x.text = strings.Join(strings.Fields(b.String()), " ")
	x.all = x.outcomes(x.r.Options)
	x.other = x.outcomes(x.r.Other.Options)
	return x
}

func (x *told) outcomes(o odds.Options) []odds.Outcome {
	list, err := odds.Outcomes(context.Background(), x.c, o)
	if err != nil {
		x.Fatal(err)
	}
	return list
}

// onTime counts builds by the line.
func (x *told) onTime(list []odds.Outcome) (n int) {
	for _, o := range list {
		if o.Finish <= x.c.Plan.Site.Handover {
			n++
		}
	}
	return n
}

// says checks that a page says so.
func (x *told) says(format string, args ...any) {
	x.Helper()
	if want := fmt.Sprintf(format, args...); !strings.Contains(x.text, want) {
		x.Errorf("the page doesn't say %q:\n%s", want, x.text)
	}
}

// in100 is a share in per cent as people write it: with a decimal where it is small or great.
func in100(share float64) string {
	if share > 0.1 && share < 0.9 {
		return strconv.FormatFloat(100*share, 'f', 0, 64)
	}
	return strconv.FormatFloat(100*share, 'f', 1, 64)
}

// TestEveryFigureOfOdds: the figures of every sentence of the page are counted again from the builds:
// in the built-in garden, and in random plans.
func TestEveryFigureOfOdds(t *testing.T) {
	harms, helps := 0, 0
	look := func(x *told) {
		x.chances()
		x.shares()
		x.broken()
		harms += x.harms()
		helps += x.reliefs()
	}
	look(tell(t, garden(t), odds.Options{Builds: 500, Seed: 1, Pace: odds.UsualPace}))
	looked := 0
	for seed := uint64(1); looked < 2; seed++ {
		c, ok := tight(seed)
		if !ok {
			continue
		}
		o := odds.Options{Builds: 100, Seed: seed, Pace: 0.2}
		if r, err := odds.Better(context.Background(), c, o); err != nil || r.Certain() || r.OnTime == 0 {
			continue
		}
		looked++
		look(tell(t, c, o))
	}
	t.Logf("%d sentences of harms and %d of what helps were counted again", harms, helps)
	if harms < 25 || helps < 1 {
		t.Errorf("only %d sentences of harms and %d of what helps were counted again", harms, helps)
	}
}

// chances counts the chance of both ways again.
func (x *told) chances() {
	x.Helper()
	n, of := x.onTime(x.all), len(x.all)
	way := ""
	if x.r.Replan {
		way = " in which people re-plan"
	}
	// Wilson's interval by its two roots: those of (p - n/of)² = z² p (1 - p)/of.
	const z = 1.959963984540054
	p, a := float64(n)/float64(of), z*z/float64(of)
	root := math.Sqrt(max((2*p+a)*(2*p+a)-4*(1+a)*p*p, 0))
	low, high := (2*p+a-root)/(2+2*a), (2*p+a+root)/(2+2*a)
	x.says("Hands over on time in %d of %d builds%s: a chance of %s %%, with 95 %% confidence %s to %s %%.",
		n, of, way, in100(p), in100(low), in100(high))
	few := min(len(x.all), len(x.other))
	if x.r.Replan {
		n, of := x.onTime(x.other), len(x.other)
		x.says("As programmed, where nobody plans anew, it is %d of %d, %s %%, and %d of the same %d.",
			n, of, in100(float64(n)/float64(of)), x.onTime(x.other[:few]), few)
		return
	}
	x.says("Where people re-plan by a quick rule it is %d of the first %d, as programmed %d of those.",
		x.onTime(x.other), few, x.onTime(x.all[:few]))
}

// shares counts again by when half, eight and nine in ten are done, and what of the margin that takes.
func (x *told) shares() {
	x.Helper()
	w := wording.New(x.c.Plan)
	var done []calendars.Instant
	for _, o := range x.all {
		done = append(done, o.Finish)
	}
	slices.Sort(done)
	by := func(tenths int) calendars.Instant { return done[(tenths*len(done)+9)/10-1] }
	if nine := by(9); nine.IsReal() && nine < x.c.Hours.Line.End {
		x.says("Half of the builds are done by %s, eight in ten by %s, nine in ten by %s.",
			w.Moment(by(5)), w.Moment(by(8)), w.Moment(nine))
		takes := x.c.Hours.Site.Between(x.c.Programme.Finish, nine)
		margin := x.c.Hours.Site.Between(x.c.Programme.Finish, x.c.Plan.Site.Handover)
		switch {
		case takes > margin && margin > 0:
			x.says("For nine in ten the margin would have to be %s of site time; it is %s.",
				calendars.WorkText(takes), calendars.WorkText(margin))
		case takes > 0 && margin > 0:
			x.says("Nine in ten take %s of the margin of %s, %s %% of it.",
				calendars.WorkText(takes), calendars.WorkText(margin), in100(float64(takes)/float64(margin)))
		}
	}
}

// broken counts again in how many builds other dates break, as the verifier finds them.
func (x *told) broken() {
	x.Helper()
	if len(x.all) > 500 {
		return // it takes some milliseconds a build
	}
	counts := make(map[schedule.Break]int)
	for k := range x.all {
		play, err := odds.Played(context.Background(), x.c, x.r.Options, uint64(k))
		if err != nil {
			x.Fatal(err)
		}
		if play == nil {
			continue
		}
		for _, b := range verify.Check(play.Plan, play.Programme, schedule.Crews).Breaks {
			counts[schedule.Break{Kind: b.Kind, Activity: b.Activity, Stock: b.Stock}]++
		}
	}
	w := wording.New(x.c.Plan)
	for i := range x.r.Broken {
		b := &x.r.Broken[i]
		n := counts[schedule.Break{Kind: b.Kind, Activity: b.Activity, Stock: b.Stock}]
		again := odds.Broken{Kind: b.Kind, Activity: b.Activity, Stock: b.Stock, Builds: n}
		if i < 8 {
			x.says("%s", w.BrokenIn(&again, len(x.all)))
		} else if n != b.Builds {
			x.Errorf("%+v breaks in %d builds", b, n)
		}
	}
}

var harmed = regexp.MustCompile(`: (?:(\d+) of the (\d+)|all (\d+)|the one) late builds? (?:is|are) later for it, ` +
	`(?:on average )?by (.+?) of site time; without it` +
	`(?:, it would (be on time|still be late)| (\d+|none|all) of them would be on time)\.`)

// harms counts again what each thing costs late builds, and returns how many sentences it read.
func (x *told) harms() (read int) {
	x.Helper()
	line := x.c.Plan.Site.Handover
	var late []int
	for k, o := range x.all[:x.r.Harmed.Builds] {
		if o.Finish > line {
			late = append(late, k)
		}
	}
	if len(late) > 0 {
		ones := fmt.Sprintf("the %d late ones", len(late))
		if len(late) == 1 {
			ones = "the late one"
		}
		if len(x.r.Harmed.Harms) > 0 {
			x.says("Found by building %s of the first %d builds once more", ones, x.r.Harmed.Builds)
		}
	}
	w := wording.New(x.c.Plan)
	for i := range x.r.Harmed.Harms {
		h := x.r.Harmed.Harms[i]
		said := harmed.FindStringSubmatch(w.Harm(&h, x.r.Harmed.Late))
		if said == nil {
			x.Fatalf("a sentence of another form: %s", w.Harm(&h, x.r.Harmed.Late))
		}
		without, ok, err := odds.Without(x.c, x.r.Options, &h, late)
		if err != nil {
			x.Fatal(err)
		}
		if !ok {
			continue
		}
		read++
		later, saved, cost := 0, 0, calendars.Minutes(0)
		for n, k := range late {
			was := min(x.all[k].Finish, x.c.Hours.Line.End)
			is := without[n]
			open := x.c.Hours.Site.Between(min(is, was), was)
			if is < was && (open > 0 || is <= line) {
				later++
				cost += open
				if is <= line {
					saved++
				}
			}
		}
		builds, of := number(said[1], said[3], "1"), number(said[2], said[3], "1")
		mean := calendars.WorkText(cost / calendars.Minutes(max(later, 1)))
		won := map[string]int{"be on time": 1, "still be late": 0}[said[5]]
		switch said[6] {
		case "all":
			won = builds
		case "none", "":
		default:
			won = number(said[6])
		}
		if builds != later || of != len(late) || won != saved || said[4] != mean {
			x.Errorf("%q: counted again, %d of %d late builds are later for it, by %s; %d are saved",
				said[0], later, len(late), mean, saved)
		}
	}
	return read
}

// number is the first of some texts that isn't empty.
func number(texts ...string) int {
	n, _ := strconv.Atoi(texts[slices.IndexFunc(texts, func(s string) bool { return s != "" })])
	return n
}

var helped = regexp.MustCompile(`, (\d+) more of (\d+) would be on time(?: \((\d+) more, (\d+) fewer\))?\.`)

// reliefs counts again what would help, and returns how many sentences it read.
func (x *told) reliefs() (read int) {
	x.Helper()
	w := wording.New(x.c.Plan)
	for i := range x.helps.Reliefs {
		h := &x.helps.Reliefs[i]
		text := w.Helps(h, x.helps.Builds)
		said := helped.FindStringSubmatch(text)
		if said == nil {
			x.Fatalf("a sentence of another form: %s", text)
		}
		x.says("%s", text)
		q, err := h.Apply(x.c.Plan.BookedAs(x.c.Programme))
		if err != nil {
			x.Fatal(err)
		}
		s, err := solve.New(q)
		if err != nil {
			x.Fatal(err)
		}
		o := x.r.Options
		o.Builds = x.helps.Builds
		list, err := odds.Outcomes(context.Background(), s.Ordered(whatif.Reference(x.c, q)), o)
		if err != nil {
			x.Fatal(err)
		}
		more, fewer := 0, 0
		for k := range list {
			was, is := x.all[k].Finish <= x.c.Plan.Site.Handover, list[k].Finish <= q.Site.Handover
			if is && !was {
				more++
			}
			if was && !is {
				fewer++
			}
		}
		read++
		both := fewer == 0 && said[3] == "" || fewer > 0 && said[3] == strconv.Itoa(more) && said[4] == strconv.Itoa(fewer)
		if number(said[1]) != more-fewer || number(said[2]) != o.Builds || !both {
			x.Errorf("%q: counted again, %d more and %d fewer of %d", text, more, fewer, o.Builds)
		}
	}
	return read
}
