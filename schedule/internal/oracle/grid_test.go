package oracle

import (
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/verify"
)

// grid tries every start of every act in the plan's own steps, whatever order
// that makes, and asks the verifier of each programme better than the best found.
type grid struct {
	*model
	t      *testing.T
	best   Best
	at     found
	starts [][]int // by act: what is tried
	tried  int
}

// most is how many programmes are tried for one plan.
const most = 20_000

// Where there are few acts, no programme is better than the best found.
func TestNothingOnTheGridIsBetter(t *testing.T) {
	plansTried, tried := 0, 0
	for seed := uint64(0); plansTried < 40; seed++ {
		p := plans.Tiny(plans.Seeded(seed))
		if len(p.Tasks)+len(p.Deliveries) > 4 {
			continue
		}
		g := &grid{t: t, model: newModel(p, minutely(p)), best: Find(p)}
		if g.all(seed) {
			plansTried++
			tried += g.tried
		}
	}
	if tried < 40_000 {
		t.Errorf("only %d programmes tried", tried)
	}
}

// all tries everything that may be dropped and all heads; it says whether that
// was few enough.
func (g *grid) all(seed uint64) bool {
	for _, dropped := range drops(g.p) {
		g.at.kept = make([]bool, len(g.acts))
		for i := range g.acts {
			g.at.kept[i] = i >= len(g.p.Tasks) || !slices.Contains(dropped, schedule.TaskID(i))
		}
		if !g.heads(seed, 0) {
			return false
		}
	}
	return true
}

func (g *grid) heads(seed uint64, i int) bool {
	if i == 0 {
		g.at.chosen = make([]int, len(g.acts))
	}
	if i < len(g.acts) {
		for g.at.chosen[i] = range g.acts[i].modes {
			if !g.heads(seed, i+1) {
				return false
			}
		}
		return true
	}
	programmes := 1
	g.starts = nil
	for i := range g.acts {
		g.starts = append(g.starts, g.startsOf(i))
		programmes *= len(g.starts[i])
	}
	if programmes > most {
		return false
	}
	g.at.start, g.at.finish, g.at.rebooked = make([]int, len(g.acts)), make([]int, len(g.acts)), true
	g.put(seed, 0)
	return true
}

// startsOf are the starts of an act in its hours, up to a day beyond the last
// finish of the best programme and its lateness.
func (g *grid) startsOf(i int) []int {
	if !g.at.kept[i] {
		return []int{none}
	}
	last := g.p.Site.Handover
	if !g.best.None {
		last = g.p.Site.Handover.Plus(g.best.Cost.Handover)
		for k := range g.p.Tasks {
			if g.p.Tasks[k].Optional && !g.best.Programme.Tasks[k].Dropped {
				last = max(last, g.best.Programme.Tasks[k].Finish.Plus(calendars.Day))
			}
		}
	}
	first := g.acts[i].release
	if d := g.delivery(i); d != nil && d.Movable != nil {
		first = max(g.of(d.Movable.Earliest), g.of(g.admitted(d)))
	}
	way := &g.acts[i].modes[g.at.chosen[i]]
	var out []int
	for k := first - first%g.wide; k < g.of(last); k += g.wide {
		if k >= first && way.finish[k] != none && way.finish[k] <= g.of(last) {
			out = append(out, k)
		}
	}
	return out
}

func (g *grid) put(seed uint64, i int) {
	if i < len(g.acts) {
		for _, k := range g.starts[i] {
			if g.at.start[i] = k; k != none {
				g.at.finish[i] = g.acts[i].modes[g.at.chosen[i]].finish[k]
				if g.done(&g.acts[i], g.at.finish[i]) == none {
					continue
				}
			}
			g.put(seed, i+1)
		}
		return
	}
	g.tried++
	programme := g.programme(&g.at)
	if cost := g.costOf(programme); g.best.None || cost.Compare(g.best.Cost, g.p) < 0 {
		if len(verify.Check(g.p, programme, schedule.Crews).Rules) == 0 {
			g.t.Fatalf("seed %d: %v is better than %v\n%s", seed, cost, g.best.Cost, plans.YAML(g.p))
		}
	}
}
