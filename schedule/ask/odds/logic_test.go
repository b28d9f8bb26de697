package odds_test

import (
	"context"
	"math"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
)

func logic(t *testing.T, list []odds.Activity, o odds.Options) *odds.LogicResult {
	t.Helper()
	r, err := odds.Logic(context.Background(), list, o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// activity is a row of a published table: best, likeliest and worst in days, and
// what it comes after by letter.
type activity struct {
	name                string
	best, likely, worst int
	after               string
}

const day = 600 // minutes to a day of the table, so that rounding is nothing

func activities(rows []activity, only string) []odds.Activity {
	var out []odds.Activity
	at := make(map[string]int32)
	for _, r := range rows {
		if only != "" && !strings.Contains(only, r.name) {
			continue
		}
		a := odds.Activity{
			Likely: calendars.Minutes(r.likely * day),
			Spread: &schedule.Spread{Best: calendars.Minutes(r.best * day), Worst: calendars.Minutes(r.worst * day)},
		}
		for _, p := range r.after {
			if before, known := at[string(p)]; known {
				a.After = append(a.After, before)
			}
		}
		at[r.name] = int32(len(out))
		out = append(out, a)
	}
	return out
}

// fourteen is a three-point exercise of fourteen activities, published on two
// sites for students; its critical path is A-C-E-H-I-K-M-N, of mean 50.83 and, by
// the rule of (worst-best)/6, standard deviation 3.346.
var fourteen = []activity{
	{"A", 5, 5, 7, ""}, {"B", 1, 2, 5, ""}, {"C", 5, 5, 5, "A"}, {"D", 4, 8, 13, "A"}, {"E", 1, 10, 17, "BC"},
	{"F", 1, 5, 7, "D"}, {"G", 2, 6, 9, "D"}, {"H", 4, 4, 6, "EF"}, {"I", 2, 7, 10, "GH"}, {"J", 2, 4, 7, "I"},
	{"K", 6, 10, 13, "I"}, {"L", 2, 6, 6, "J"}, {"M", 2, 2, 3, "K"}, {"N", 7, 7, 12, "LM"},
}

// The chance to be done in 55 days is published as 0.8944: that of the critical
// path alone, its sum taken as normal and each deviation as (worst-best)/6. Beta
// distributions with the published means have deviations of their own, from
// (mean-best)(worst-mean)/7, 10 % larger in all; with these the same sum gives 0.8698.
func TestPublishedPERTChance(t *testing.T) {
	const path = "ACEHIKMN"
	var mean, classic, own float64
	for _, r := range fourteen {
		if !strings.Contains(path, r.name) {
			continue
		}
		a, m, b := float64(r.best), float64(r.likely), float64(r.worst)
		mu := (a + 4*m + b) / 6
		mean += mu
		classic += (b - a) * (b - a) / 36
		own += (mu - a) * (b - mu) / 7
	}
	normal := func(variance float64) float64 { return 0.5 * math.Erfc((mean-55)/math.Sqrt(2*variance)) }
	near(t, "the mean", mean, 50.83, 0.01)
	near(t, "the deviation", math.Sqrt(classic), 3.346, 0.001)
	near(t, "the published chance", normal(classic), 0.8944, 0.001)

	o := odds.Options{Builds: 200_000, Seed: 8}
	alone := logic(t, activities(fourteen, path), o)
	chance := float64(alone.Within(55*day)) / float64(o.Builds)
	near(t, "the chance of the path", chance, normal(own), 0.01)
	near(t, "the chance of the path", chance, 0.8944, 0.035)
	all := logic(t, activities(fourteen, ""), o)
	// Others are longer at times: never better than the path alone, and here by
	// more than chance.
	if merged := float64(all.Within(55*day)) / float64(o.Builds); merged > chance-0.002 || merged < chance-0.05 {
		t.Errorf("with all its paths the chance is %.4f, alone %.4f", merged, chance)
	}
	for k, r := range fourteen {
		often := float64(all.OnChain[k]) / float64(o.Builds)
		if strings.Contains("AHIN", r.name) && often < 0.9 || r.name == "B" && often > 0.05 {
			t.Errorf("%s is on the chain in %.3f of builds", r.name, often)
		}
	}
}

// shares are the chances of whole minutes of a triangular spread, by its
// distribution function.
func shares(best, likely, worst int) map[int]float64 {
	a, c, b := float64(best), float64(likely), float64(worst)
	upto := func(x float64) float64 {
		switch {
		case x <= a:
			return 0
		case x >= b:
			return 1
		case x < c:
			return (x - a) * (x - a) / ((b - a) * (c - a))
		}
		return 1 - (b-x)*(b-x)/((b-a)*(b-c))
	}
	out := make(map[int]float64)
	for k := best; k <= worst; k++ {
		out[k] = upto(float64(k)+0.5) - upto(float64(k)-0.5)
	}
	return out
}

// Where paths merge, the chance to be in time is less than that of any path, and
// the mean longer than the longest path of means (merge bias). Here every case of
// a network of five is counted out: two branches of two, and one joining them.
func TestMergeBiasAgainstAllCases(t *testing.T) {
	rows := [][3]int{{2, 4, 7}, {3, 4, 6}, {1, 5, 8}, {2, 3, 8}, {1, 2, 4}}
	links := [][]int32{nil, {0}, nil, {2}, {1, 3}}
	var list []odds.Activity
	for k, r := range rows {
		list = append(list, odds.Activity{
			Likely: calendars.Minutes(r[1]),
			Spread: &schedule.Spread{Best: calendars.Minutes(r[0]), Worst: calendars.Minutes(r[2])},
			After:  links[k],
		})
	}
	want := make([]float64, 40)
	onChain := make([]float64, 5)
	var cases func(k int, takes [5]int, chance float64)
	cases = func(k int, takes [5]int, chance float64) {
		if k < 5 {
			for minutes, share := range shares(rows[k][0], rows[k][1], rows[k][2]) {
				takes[k] = minutes
				cases(k+1, takes, chance*share)
			}
			return
		}
		one, two := takes[0]+takes[1], takes[2]+takes[3]
		want[max(one, two)+takes[4]] += chance
		on := []int{0, 1, 4}
		if two > one {
			on = []int{2, 3, 4}
		}
		for _, i := range on {
			onChain[i] += chance
		}
	}
	cases(0, [5]int{}, 1)
	o := odds.Options{Builds: 400_000, Seed: 3, Shape: odds.Triangular}
	r := logic(t, list, o)
	var mean, exact float64
	for m, n := range r.Minutes {
		got := float64(n) / float64(o.Builds)
		near(t, "the share of a finish", got, want[m], 0.004)
		mean += float64(m) * got
		exact += float64(m) * want[m]
	}
	near(t, "the mean", mean, exact, 0.02)
	for k, n := range r.OnChain {
		near(t, "the share on the chain", float64(n)/float64(o.Builds), onChain[k], 0.005)
	}
	if paths := math.Max((2+4+7+3+4+6)/3., (1+5+8+2+3+8)/3.) + 7/3.; mean < paths+0.5 {
		t.Errorf("the mean %.2f is hardly above the longest path of means, %.2f", mean, paths)
	}
}

func TestLogicOnAnyCores(t *testing.T) {
	list := activities(fourteen, "")
	o := odds.Options{Builds: 3000, Seed: 5}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	one := logic(t, list, o)
	runtime.GOMAXPROCS(2)
	if diff := cmp.Diff(one, logic(t, list, o)); diff != "" {
		t.Error(diff)
	}
	if o.Seed = 6; cmp.Equal(one, logic(t, list, o)) {
		t.Error("another seed draws the same")
	}
}

func TestLogicRefuses(t *testing.T) {
	ctx := context.Background()
	for _, c := range []struct {
		list []odds.Activity
		o    odds.Options
		want string
	}{
		{nil, odds.Options{}, "odds: 0 builds; give 1 to 10000000"},
		{nil, odds.Options{Builds: 1, Pace: 1}, "odds: the pace of crews may differ by 0 or more and less than 1"},
		{nil, odds.Options{Builds: 1, Pace: math.NaN()}, "odds: the pace of crews may differ by 0 or more and less than 1"},
		{[]odds.Activity{{Likely: 1, After: []int32{0}}}, odds.Options{Builds: 1},
			"odds: activity 0 comes after 0, which isn't before it in the list"},
		{[]odds.Activity{{Likely: -5}}, odds.Options{Builds: 1},
			"odds: activity 0 takes less than nothing or ends beyond 2620800 minutes"},
	} {
		if _, err := odds.Logic(ctx, c.list, c.o); err == nil || err.Error() != c.want {
			t.Errorf("got %v, want %s", err, c.want)
		}
	}
	gone, stop := context.WithCancel(ctx)
	stop()
	if _, err := odds.Logic(gone, []odds.Activity{{Likely: 1}}, odds.Options{Builds: 1}); err != context.Canceled {
		t.Errorf("cancelled: %v", err)
	}
	if r := logic(t, nil, odds.Options{Builds: 10}); r.Within(5) != 0 && r.Within(5) != 10 {
		t.Errorf("no work at all: %v", r)
	}
}
