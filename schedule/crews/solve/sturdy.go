package solve

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/builds"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/internal/together"
	"build.example/turflast/schedule/network"
)

// The work of the fifth aim. A fixed number of builds judges each candidate at first, and
// more each finalist; how many candidates there are is counted work: with what finds them,
// all schedules and builds place about so many nodes together, with a least and a most number.
const (
	firstBuilds, lastBuilds = 32, 128

	judging               = 150_000
	fewJudged, manyJudged = 300, 2400

	// Parts of that work, as divisors: schedules that go to and fro among those that are
	// equal, schedules for each case that is known beforehand, builds at first and at last.
	strollShare, stressShare, firstShare, lastShare = 10, 64, 3, 3

	stresses    = 6   // cases known beforehand
	otherBroken = 100 // other dates may break in one of so many builds more than in those of the base
)

// The seeds of what is drawn: for the cases known beforehand, for the builds that judge
// candidates at first, and for those that choose, so that no choice flatters itself.
const (
	stressSeed, screenSeed, finalSeed uint64 = 0x7374, 0x7363, 0x6669
)

// sturdiest is, of programmes equal to the best found in the first four aims, the one that
// builds as programmed, without weather, show to be the sturdiest: it is in time in most of
// them; of those within noise of that it has the least mean lateness; and of those within
// noise again it is the best in the aims that are left. Where nothing is uncertain there is
// nothing to judge.
func (c *crewSearch) sturdiest(best *found) *found {
	if c.o.Unjudged || !best.Found || c.cut() || c.asWanted(best) {
		return best
	}
	j := c.jury(best)
	if j == nil {
		return best
	}
	base := j.all[0]
	if j.judge(j.all, finalSeed, lastBuilds); base.onTime == len(base.late) {
		return best // nothing can be gained
	}
	j.judge(j.all, screenSeed, firstBuilds)
	j.stroll(j.all)
	if best.Cost.Tie[1] == 0 { // what starts as a reference says isn't had otherwise
		j.stress()
		j.stroll(j.best(2))
	}
	return j.choose().f
}

// asWanted says whether every start is that of a reference, so that any other moves more.
func (c *crewSearch) asWanted(f *found) bool {
	return c.o.Reference != nil && f.Cost.Tie[1] == 0 && f.Cost.Tie[2] == 0
}

// jury judges programmes that are equal to one in the first four aims, with its sizes and
// bookings.
type jury struct {
	c     *crewSearch
	base  *found
	frame *builds.Frame
	p     *resources.Problem // of the frame, without choices of heads
	line  calendars.Instant

	follow *search.Follower
	seen   map[string]bool
	all    []*trial // the best found first
}

// trial is a programme that is judged.
type trial struct {
	f      *found // in terms of the base
	from   search.From
	model  *builds.Model
	onTime int
	broken int   // builds in which a date other than the hand-over of a task breaks
	late   []int // minutes after the hand-over, by build
	sum    int   // of late
}

// jury prepares to judge; nil where nothing is uncertain.
func (c *crewSearch) jury(best *found) *jury {
	of := c.bare(best)
	frame, err := builds.NewFrame(of.Case, builds.Spread{Pace: builds.UsualPace})
	if err != nil || frame.Certain() {
		return nil
	}
	j := &jury{
		c: c, base: best, frame: frame, p: c.problem(frame.Model, best.dropped, nil),
		line: c.s.model.Plan.Site.Handover, seen: make(map[string]bool),
	}
	for k := range j.p.Modes {
		j.p.Modes[k] = j.p.Modes[k][:1]
	}
	if j.follow, err = search.NewFollower(&j.p.Problem); err != nil {
		return nil
	}
	t := moved(frame.Model, best.problem.Model, &best.Result)
	j.all = []*trial{j.trial(best, t)}
	if j.all[0] == nil {
		return nil
	}
	return j
}

// moved are the times of a schedule of one model by the nodes of another of the same plan.
func moved(to, from *network.Model, r *search.Result) *network.Times {
	t := network.NewTimes(to.Network)
	for number, k := range to.Number {
		at := from.Number[number]
		t.Start[k], t.Finish[k], t.Done[k] = r.Start[at], r.Finish[at], r.Done[at]
	}
	return t
}

// work is how many schedules and builds there are in all.
func (j *jury) work() int {
	return min(max(judging/max(len(j.p.Net.Nodes), 1), fewJudged), manyJudged)
}

// candidates is the most that are judged, and finalists the most that are judged at last.
func (j *jury) candidates() int { return max(j.work()/firstShare/firstBuilds, 3) }
func (j *jury) finalists() int  { return max(j.work()/lastShare/lastBuilds, 1) }

// stroll takes what a search finds that begins with trials and goes to and fro among
// schedules that are equal.
func (j *jury) stroll(from []*trial) {
	o := search.Options{Schedules: j.work() / strollShare, Searches: 2, Seed: j.c.o.Seed, Equal: j.candidates()}
	for _, x := range from {
		o.From = append(o.From, x.from)
	}
	if r, err := search.Search(j.c.ctx, &j.p.Problem, o); err == nil {
		j.take(r.Equal)
	}
}

// stress takes the orders that suit cases known beforehand: each a build that is drawn or,
// first, the longest work and the latest lorries of all of them at once. What the margin
// doesn't allow as it is may be had halfway between it and the best found.
func (j *jury) stress() {
	b, err := builds.NewBuilder(j.all[0].model, nil)
	if err != nil {
		return
	}
	cases := make([]*crews.Problem, stresses+1)
	cases[0] = j.copied()
	for k := range stresses {
		b.Draw(stressSeed, uint64(k))
		p := j.copied()
		for i := range p.Net.Nodes {
			drawn, most := &b.Network().Nodes[i], &cases[0].Net.Nodes[i]
			p.Net.Nodes[i], p.Modes[i][0].Work = *drawn, drawn.Work
			most.Work, most.Earliest = max(most.Work, drawn.Work), max(most.Earliest, drawn.Earliest)
			cases[0].Modes[i][0].Work = most.Work
		}
		cases[k+1] = p
	}
	suited := make([]search.From, len(cases))
	var all together.Group
	for k, p := range cases {
		all.Go(func() {
			r, err := search.Search(j.c.ctx, p, search.Options{
				Schedules: j.work() / stressShare, Seed: j.c.o.Seed + uint64(k), From: []search.From{j.all[0].from},
			})
			if err == nil && r.Found {
				suited[k] = search.From{Start: r.Start}
			}
		})
	}
	all.Wait()
	var list []search.From
	for _, s := range suited {
		if s.Start != nil {
			list = append(list, s, between(s, j.all[0].from))
		}
	}
	j.take(list)
}

// copied is the problem with nodes of its own.
func (j *jury) copied() *crews.Problem {
	p, n := j.p.Problem, *j.p.Net
	n.Nodes = slices.Clone(n.Nodes)
	p.Net, p.Modes = &n, slices.Clone(p.Modes)
	for k := range p.Modes {
		p.Modes[k] = slices.Clone(p.Modes[k])
	}
	return &p
}

// between is the order of the means of the starts of two schedules.
func between(a, b search.From) search.From {
	out := search.From{Start: slices.Clone(a.Start)}
	for k, at := range out.Start {
		out.Start[k] = (at + b.Start[k]) / 2
	}
	return out
}
