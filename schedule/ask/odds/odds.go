package odds

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"sync/atomic"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/builds"
	"build.example/turflast/schedule/internal/together"
	"build.example/turflast/schedule/network"
)

// Options say how many builds there are and what they draw.
type Options struct {
	Builds int // at least 1, at most MostBuilds
	Seed   uint64
	Shape  Shape
	Pace   float64 // a crew's pace is within 1±Pace and likeliest 1; from 0, as planned, to below 1
	Replan bool    // people re-plan as the build goes ([builds.Replanner]); else the order of hands stays
}

// The usual options, and the most builds.
const (
	UsualBuilds = 10_000
	UsualSeed   = 1
	UsualPace   = builds.UsualPace
	MostBuilds  = 10_000_000
)

// Shape is the shape of the spread of a working time or lateness.
type Shape = builds.Shape

// The shapes, of [builds.Shape].
const (
	PERT       = builds.PERT
	Triangular = builds.Triangular
)

// CauseKind says what is uncertain.
type CauseKind uint8

// What is uncertain.
const (
	Work      CauseKind = iota // the working time of a task
	Pace                       // the pace of a crew
	Late                       // a lorry
	Fails                      // whether a sign-off fails the first time
	WetDays                    // how many days up to the hand-over are wet
	WindyDays                  // how many days up to the hand-over are windy
	StayAway                   // how many of a crew stay away up to the hand-over, summed over days
)

// Cause is one thing that is uncertain, and how it moves the finish.
type Cause struct {
	Kind     CauseKind
	Activity schedule.Activity // of Work, Late and Fails, or Nothing
	Crew     schedule.CrewID   // of Pace and StayAway, or None

	// Rank is Spearman's rank correlation between what is drawn and the finish, over the
	// first Ranked builds; positive when more of it makes the finish later.
	Rank float64
}

// Broken is a date other than the hand-over of tasks, and in how many builds it breaks.
type Broken struct {
	Kind     schedule.BreakKind
	Activity schedule.Activity   // what is late
	Stock    schedule.DeliveryID // of BreakKeep: what is kept too long; else None
	Builds   int
}

// Dots is how many equal parts the builds are shown in.
const Dots = 100

// Result is what came of the builds.
type Result struct {
	Options
	OnTime     int                     // builds whose last required work is done by the hand-over
	Unfinished int                     // builds in which some required work finds no place, or a longest wait can't hold
	Low, High  float64                 // 95 % confidence interval of the chance to be on time, by Wilson
	By         [3]calendars.Instant    // when each share of builds in Shares is done; Never when it isn't
	Dots       [Dots]calendars.Instant // the finish in the middle of each hundredth of the builds, rising
	Finishes   []Bin                   // by finish; builds that are never finished left out

	OnChain []int    // builds in which an activity is on the hand-over chain, by Activity; nil where people re-plan
	Causes  []Cause  // the one that moves the finish most first
	Ranked  int      // how many builds the ranks are computed from
	Broken  []Broken // dates that break in some build, most often first

	Other *Result // of [Better]: what came of the other way to build; else nil
	Same  int     // with it: of the builds that people re-plan, those that are on time as programmed

	Harmed *Harmed // what costs time; nil where nobody asked

	Asked int // builds asked for; an interrupt leaves fewer, which are the first of them
}

// Shares are the shares of builds that Result.By is about.
var Shares = [3]float64{0.5, 0.8, 0.9}

// Chance returns the share of builds that are on time.
func (r *Result) Chance() float64 { return float64(r.OnTime) / float64(r.Builds) }

// Certain says whether all builds are the same, since the plan has nothing uncertain.
func (r *Result) Certain() bool { return len(r.Causes) == 0 }

func (o *Options) check() error {
	switch {
	case o.Builds < 1 || o.Builds > MostBuilds:
		return fmt.Errorf("odds: %d builds; give 1 to %d", o.Builds, MostBuilds)
	case !(o.Pace >= 0 && o.Pace < 1):
		return errors.New("odds: the pace of crews may differ by 0 or more and less than 1")
	}
	return nil
}

// Usual are the options of all that tells a chance without being asked for another way: the
// odds, the screen, papers and programmes tell the same one.
func Usual() Options { return Options{Builds: UsualBuilds, Seed: UsualSeed, Pace: UsualPace} }

// Run builds a crew programme many times. The error is ErrBlocked, that of a wrong
// option, or the context's. With the context's the result is that of the builds done by
// then, nil for none: as if no more had been asked for.
func Run(ctx context.Context, c network.Case, o Options) (*Result, error) {
	w, err := newWay(ctx, c, o)
	if err != nil {
		return nil, err
	}
	return w.run(ctx, o, nil)
}

// way is one way to build a model, with its workers.
type way struct {
	*model
	builders []*builder
}

// newWay is the way to build a crew programme that options ask for.
func newWay(ctx context.Context, c network.Case, o Options) (*way, error) {
	if err := o.check(); err != nil {
		return nil, err
	}
	m, err := newModel(ctx, c, o)
	if err != nil {
		return nil, err
	}
	return m.way(o)
}

// run builds many times, and shows note the finish of each build. Several workers may do so at
// once, once for each build.
func (w *way) run(ctx context.Context, o Options, note func(k int, finish calendars.Instant)) (*Result, error) {
	for _, b := range w.builders {
		clear(b.onChain)
		clear(b.broken)
	}
	t := newTally(w.model, o)
	done := each(ctx, o.Builds, len(w.builders), w.batch(), func(worker, k int) {
		b := w.builders[worker]
		finish := b.traced(o.Seed, uint64(k))
		t.add(k, finish, b.row)
		if note != nil {
			note(k, finish)
		}
	})
	if done == 0 {
		return nil, ctx.Err()
	}
	r := t.result(w.builders, done)
	if done < o.Builds {
		return r, ctx.Err()
	}
	return r, nil
}

// A worker takes as many builds at a time as place about so many nodes, and no more than
// mostBatch.
const batchNodes, mostBatch = 4096, 128

// batch is how many builds a worker takes at a time.
func (m *model) batch() int {
	return min(max(batchNodes/max(len(m.Problem.Net.Nodes), 1), 1), mostBatch)
}

// way is a way to build the model as often as options say.
func (m *model) way(o Options) (*way, error) {
	w := &way{m, make([]*builder, max(min(runtime.GOMAXPROCS(0), (o.Builds+m.batch()-1)/m.batch()), 1))}
	for k := range w.builders {
		var err error
		if w.builders[k], err = newBuilder(m, o.Replan); err != nil {
			return nil, err
		}
	}
	return w, nil
}

// each calls do once for every build, with several workers at once that take some builds
// at a time. Once ctx is done no worker takes more: it returns how many are done, which
// are the first.
func each(ctx context.Context, builds, workers, batch int, do func(worker, build int)) (done int) {
	var next atomic.Int64
	var all together.Group
	for w := range workers {
		all.Go(func() {
			for ctx.Err() == nil {
				from := int(next.Add(int64(batch))) - batch
				if from >= builds {
					return
				}
				for k := from; k < min(from+batch, builds); k++ {
					do(w, k)
				}
			}
		})
	}
	all.Wait()
	return min(int(next.Load()), builds)
}
