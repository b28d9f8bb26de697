package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/ask/flaws"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/worktime"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/rates"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/schedule/starters"
)

// starterOptions are what "turflast new" composes a plan of elements by.
type starterOptions struct {
	with, crews            []string
	ground, region, garden string
	ratesOf, strikeOf      string
	opens, handover, hours string
}

const withFlag, strikeFlag = "with", "strike-of"

// addStarter adds the options by which a plan is composed of elements.
func addStarter(c *cobra.Command, o *starterOptions) {
	f := c.Flags()
	f.StringSliceVar(&o.with, withFlag, nil, "the `ELEMENTS` to build, each alone or with its size: deck,paving=40m2")
	f.StringVar(&o.ground, "ground", string(starters.Dug), "dug, or protected where nothing may be dug")
	f.StringVar(&o.region, "region", "", "the `CODE` of the region whose holidays are kept; GB-ENG without it")
	f.StringVar(&o.opens, "opens", "", "the `DATE` on which the site opens, and the time: \"2027-05-10 07:30\"")
	f.StringVar(&o.handover, "handover", "", "the `DATE` of the hand-over, and the time")
	f.StringVar(&o.hours, "hours", "", hoursHelp)
	f.StringSliceVar(&o.crews, "crews", nil, "the `HEADS` of crews that differ: masons=2,planting=6")
	f.StringVar(&o.ratesOf, "rates-of", "", "the `FOLDER` of a garden that was built, whose rates are taken over")
	f.StringVar(&o.strikeOf, strikeFlag, "", "in place of --with: take down the garden of this `PLAN` again")
	f.StringVar(&o.garden, "garden", "My garden", "the `NAME` of the garden")
	for name, values := range map[string]func() []string{
		withFlag: elementNames, "ground": groundNames, "crews": starters.CrewNames, "region": regionCodes,
	} {
		complete := func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return values(), cobra.ShellCompDirectiveNoFileComp
		}
		if err := c.RegisterFlagCompletionFunc(name, complete); err != nil {
			panic(err) // the option is there, and has no other
		}
	}
}

func elementNames() (out []string) {
	for _, e := range starters.Elements() {
		out = append(out, described(e.Name, e.What))
	}
	return out
}

func groundNames() (out []string) {
	for _, g := range starters.Grounds() {
		out = append(out, string(g))
	}
	return out
}

func regionCodes() []string {
	codes, _ := completeRegions(nil, nil, "")
	return codes
}

// elementWords are the elements for help, one a line.
func elementWords() string {
	var b strings.Builder
	for _, e := range starters.Elements() {
		usual := starters.Chosen{Element: e, Size: e.Usual}
		fmt.Fprintf(&b, "  %-12s %s; %s without a size\n", e.Name, e.What, usual.Measure())
	}
	return strings.TrimRight(b.String(), "\n")
}

// compose writes a plan of elements, and says what its first programme says.
func (p *program) compose(c *cobra.Command, args []string, o *starterOptions) error {
	into := planDocuments("")
	if err := allNew(within(folder(args), into)); err != nil {
		return err // before a search that would be for nothing
	}
	g, err := p.starter(o)
	if err != nil {
		return &usageError{err.Error(), c.CommandPath()}
	}
	from := ""
	if o.ratesOf != "" {
		if from, err = p.pastRates(c, g, o.ratesOf); err != nil {
			return err
		}
	}
	return p.writeBooked(args, from, func(solve starterSolver) (string, network.Case, error) {
		return starters.Book(g, solve)
	})
}

// starterSolver solves the text of a plan that is composed.
type starterSolver = func(text string) (network.Case, error)

// pastRates takes over the rates of a garden that was built, from its plan and log, and says
// of how many tasks.
func (p *program) pastRates(c *cobra.Command, g *starters.Garden, folder string) (said string, err error) {
	s, err := file(folder)
	if err != nil {
		return "", err
	}
	plan, problems, err := p.load(s)
	switch {
	case err != nil:
		return "", err
	case problems.Fatal():
		return "", &problemsError{s.name, problems.Faults()}
	}
	events, err := p.events(s)
	if err != nil {
		return "", err
	}
	if len(events) == 0 {
		return "", fmt.Errorf("--rates-of %s: it has no site log, so nothing says how long work took", folder)
	}
	now := calendars.InstantOf(p.env.Now())
	plan = sitelog.Planned(plan, events, now)
	r := p.records(s)
	standing := progress.At(plan, events, r.newest(plan), now)
	found := rates.Of(standing, worktime.New(standing.Plan))
	for _, x := range found.Rates {
		g.Past = append(g.Past, starters.PastRate{Garden: plan.Garden, Stage: plan.Stages[x.Stage], Unit: x.Unit, Was: x.Was,
			Is: x.Is(), Amount: x.Amount, Hours: float64(x.Took) / float64(calendars.Hour)})
	}
	n, of := g.Carried()
	return fmt.Sprintf("Rates of %s: taken over for %d of %d tasks; of the others it has none for such work.", plan.Garden,
		n, of), nil
}

// writeBooked writes a composed plan with its lorries booked, and says what its first
// programme says; before that the sentence from, if there is one.
func (p *program) writeBooked(args []string, from string,
	book func(starterSolver) (string, network.Case, error)) error {
	text, plan, err := p.booked(book)
	if err != nil {
		return err
	}
	if err := p.write(folder(args), planDocuments(text)); err != nil {
		return err
	}
	if from != "" {
		fmt.Fprintln(p.stdout, from)
	}
	w := wording.New(plan.Plan)
	fmt.Fprintf(p.stdout, "%s, %s, %s.\n", wording.Count(len(plan.Plan.Tasks), "task", "tasks"),
		wording.Count(len(plan.Plan.Deliveries), "lorry", "lorries"),
		wording.Count(guesses(text), "guess", "guesses")+" to put right")
	fmt.Fprintln(p.stdout, "The first programme: "+w.Margin(plan.Programme))
	fmt.Fprintln(p.stdout, w.Verdict(plan.Programme))
	return nil
}

// guesses counts the comments of a plan, below its head, that call something a guess.
func guesses(text string) (n int) {
	_, body, _ := strings.Cut(text, "\ngarden:")
	for line := range strings.Lines(body) {
		if _, comment, ok := strings.Cut(line, "# "); ok && strings.Contains(comment, "guess") {
			n++
		}
	}
	return n
}

// booked is a composed text with its lorries booked, and its verified programme.
func (p *program) booked(book func(starterSolver) (string, network.Case, error)) (string, network.Case, error) {
	quick := func(text string) (network.Case, error) {
		s, err := composed(text)
		if err != nil {
			return network.Case{}, err
		}
		return s.Crews(context.Background(), solve.Options{Schedules: quickSchedules, Unjudged: true}), nil
	}
	text, _, err := book(quick)
	if err != nil {
		return "", network.Case{}, err
	}
	s, err := composed(text)
	if err != nil {
		return "", network.Case{}, err
	}
	plan, err := p.crewsNear(s, nil)
	return text, plan, err
}

// quickSchedules are enough for a search that only says when loads are wanted.
const quickSchedules = 200

// composed is a solver for a plan that was composed; a fault in that is one of the program.
func composed(text string) (*solve.Solver, error) {
	plan, problems := planfile.Read(strings.NewReader(text))
	if problems.Fatal() {
		return nil, &fault{what: fmt.Sprintf("the composed plan doesn't read: %s", problems.Faults()[0])}
	}
	s, err := solve.New(plan)
	if err != nil {
		return nil, &fault{what: fmt.Sprintf("the composed plan has a ring: %s", flaws.Rings(plan, err)[0])}
	}
	return s, nil
}

// starter is the garden that options ask for. Its errors are those of the command line.
func (p *program) starter(o *starterOptions) (*starters.Garden, error) {
	g := &starters.Garden{Name: o.garden, Ground: starters.Ground(o.ground), Crews: map[string]int{}}
	if !slices.Contains(starters.Grounds(), g.Ground) {
		return nil, fmt.Errorf("--ground %s: it is dug, or protected", o.ground)
	}
	if strings.TrimSpace(o.garden) == "" {
		return nil, errors.New("--garden: the name of the garden is empty")
	}
	for _, text := range o.with {
		e, err := element(text)
		if err != nil {
			return nil, fmt.Errorf("--with %s: %w", text, err)
		}
		if slices.ContainsFunc(g.Elements, func(c starters.Chosen) bool { return c.Element == e.Element }) {
			return nil, fmt.Errorf("--with names %s twice: say its whole size once", e.Name)
		}
		g.Elements = append(g.Elements, e)
	}
	slices.SortFunc(g.Elements, func(a, b starters.Chosen) int {
		return slices.Index(starters.Elements(), a.Element) - slices.Index(starters.Elements(), b.Element)
	})
	if len(g.Elements) == 0 {
		return nil, errors.New("--with names no element")
	}
	if err := p.starterPlace(g, o); err != nil {
		return nil, err
	}
	for _, text := range o.crews {
		if err := starterCrew(g, text); err != nil {
			return nil, fmt.Errorf("--crews %s: %w", text, err)
		}
	}
	if err := g.Fits(); err != nil {
		return nil, fmt.Errorf("--crews: %w", err)
	}
	return g, nil
}

// element reads an element with or without its size: "deck", "paving=40m2".
func element(text string) (starters.Chosen, error) {
	name, size, sized := strings.Cut(text, "=")
	e, err := starters.Find(strings.TrimSpace(name))
	if err != nil {
		return starters.Chosen{}, err
	}
	if !sized {
		return starters.Chosen{Element: e, Size: e.Usual}, nil
	}
	number := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(size), e.Unit))
	f, err := strconv.ParseFloat(number, 64)
	like := starters.Chosen{Element: e, Size: e.Usual}.Measure()
	whole := e.Unit != "m" && e.Unit != "m2"
	switch {
	case err != nil || !(f > 0):
		return starters.Chosen{}, fmt.Errorf("%q is no size of it; write it like %s=%s", size, e.Name,
			strings.ReplaceAll(like, " ", ""))
	case f > e.Most:
		return starters.Chosen{}, fmt.Errorf("at most %s; split it into plans of several windows",
			starters.Chosen{Element: e, Size: e.Most}.Measure())
	case whole && f != float64(int(f)):
		return starters.Chosen{}, fmt.Errorf("%q is no whole number of %s", number, e.Unit)
	case f < 1:
		return starters.Chosen{}, fmt.Errorf("at least 1 %s", e.Unit)
	}
	return starters.Chosen{Element: e, Size: f}, nil
}

// starterCrew reads the heads of a crew: "masons=2".
func starterCrew(g *starters.Garden, text string) error {
	name, heads, _ := strings.Cut(text, "=")
	if !slices.Contains(starters.CrewNames(), name) {
		return fmt.Errorf("no crew is called %q; there are %s", name, strings.Join(starters.CrewNames(), ", "))
	}
	n, err := strconv.Atoi(heads)
	if err != nil || n < 1 || n > 99 {
		return fmt.Errorf("write the heads like %s=3, from 1 to 99", name)
	}
	g.Crews[name] = n
	return nil
}

// The window of a starter of which nobody gave the dates, and the longest one.
const (
	weeksAhead  = 30
	daysOpen    = 12
	longestDays = 26 * 7
)

// starterPlace puts the region and the window into a garden.
func (p *program) starterPlace(g *starters.Garden, o *starterOptions) error {
	region := strings.ToUpper(o.region)
	if region == "" {
		region = "GB-ENG"
		g.Guessed = append(g.Guessed, "region")
	}
	var err error
	if g.Place, err = starters.PlaceIn(region); err != nil {
		return fmt.Errorf("--region: %w", err)
	}
	if g.Hours, err = weekOf(o.hours); err != nil {
		return err
	}
	if err := p.starterDates(g, o); err != nil {
		return err
	}
	return windowFits(g)
}

// windowFits is an error for a window that no plan fits.
func windowFits(g *starters.Garden) error {
	f := calendars.Figures{Location: g.Place.Location}
	switch {
	case g.Handover <= g.Opens:
		return fmt.Errorf("the hand-over, %s, is not after the opening, %s", f.Moment(g.Handover), f.Moment(g.Opens))
	case g.Handover > g.Opens.Plus(longestDays*calendars.Day):
		return errors.New("the window is longer than 26 weeks; check the years of --opens and --handover")
	case !g.Works():
		return errors.New("the window holds no day on which the site works: only days off and holidays; --hours says others")
	}
	return nil
}

// starterDates puts the window into a garden: as given, or else guessed.
func (p *program) starterDates(g *starters.Garden, o *starterOptions) (err error) {
	if o.opens == "" || o.handover == "" {
		g.Guessed = append(g.Guessed, "dates")
	}
	today := calendars.DateIn(calendars.InstantOf(p.env.Now()), g.Place.Location)
	first := today + 7*weeksAhead
	first -= calendars.Date((int(first.Weekday()) + 6) % 7) // its Monday
	g.Opens, _ = calendars.At(g.Place.Location, first, g.Begins())
	if o.opens != "" {
		if g.Opens, err = momentOf(g, o.opens, g.Begins()); err != nil {
			return fmt.Errorf("--opens: %w", err)
		}
	}
	last := calendars.DateIn(g.Opens, g.Place.Location) + daysOpen - 1
	g.Handover, _ = calendars.At(g.Place.Location, last, g.Ends())
	if o.handover != "" {
		if g.Handover, err = momentOf(g, o.handover, g.Ends()); err != nil {
			return fmt.Errorf("--handover: %w", err)
		}
		if o.opens == "" {
			g.Opens, _ = calendars.At(g.Place.Location, calendars.DateIn(g.Handover, g.Place.Location)-daysOpen+1, g.Begins())
		}
	}
	return nil
}

// momentOf reads a date with its time, or without it.
func momentOf(g *starters.Garden, text string, usual calendars.Minutes) (calendars.Instant, error) {
	day, err := calendars.ParseDate(text)
	m := usual
	if strings.Contains(text, " ") {
		day, m, err = calendars.ParseMoment(text)
	}
	if err != nil {
		return 0, err
	}
	if year, _, _ := day.Civil(); year < earliestYear || year > latestYear {
		return 0, fmt.Errorf("%q is outside the years %d to %d", text, earliestYear, latestYear)
	}
	at, clock := calendars.At(g.Place.Location, day, m)
	if clock == calendars.Skipped {
		return 0, fmt.Errorf("%q is a time that the clocks skip", text)
	}
	return at, nil
}

// The years of a starter's window: in them public holidays are known.
const earliestYear, latestYear = 1971, 2198

// hoursHelp says what hours of a site are written like.
const hoursHelp = "the `HOURS` of the site by weekday: \"mon-fri 07:30-12:00 12:30-17:00, sat 08:00-13:00\""

// weekOf reads the hours of a site; none where nothing is said.
func weekOf(text string) (week calendars.WeekHours, err error) {
	if text == "" {
		return week, nil
	}
	if week, err = calendars.ParseWeek(text); err != nil {
		err = fmt.Errorf("--hours: %w", err)
	}
	return week, err
}
