package tui

import (
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/trials"
	"build.example/turflast/tui/views"
)

// tab is one of the views.
type tab int

const (
	windowTab tab = iota
	dayTab
	deliveriesTab
	peopleTab
	oddsTab
	tabs
)

// app is the root model: it holds the plan, has it solved beside the screen and routes
// keys; the views draw.
//
// One target is solved at a time while the newest waits. Only results for the newest are
// shown: its logic programme at once, its crew programme once it is found.
type app struct {
	opts  Options
	keys  keyMap
	moves views.Moves
	size  draw.Size

	tab        tab
	kept       schedule.Activity // chosen in the view before; people and odds choose none
	window     views.Window
	day        views.Day
	deliveries views.Deliveries
	people     views.People

	want    target       // what is to be shown, solved or not yet
	shown   target       // what the garden shows
	basis   basis        // the plan as filed and its programmes, of what is shown
	stale   bool         // the basis must be solved again
	garden  *draw.Garden // nil until the first plan is solved
	words   *wording.Writer
	gen     int  // number of the newest target
	solving bool // a logic programme is being made

	tryKeys trials.KeyMap
	drawer  bool // the what-if is open
	lost    lost
	written written

	logicOnly bool      // the user wants the logic programme
	logic     *solution // of what is shown; nil until there is one
	crews     *solution // of what is shown; nil until there is one
	search    *search   // for a crew programme; nil when none runs

	lateness, chances *study   // that are running: how late deliveries may come, and the odds
	mending           *study   // that is running: what would mend a broken date
	learned           learned  // about the crew programme
	longer            *longer  // for a better programme than the crew programme; nil before one begins
	order             []string // ids of deliveries, what can hurt most first; nil until it is known

	wait func(time.Duration, tea.Msg) tea.Cmd

	ticks tickKeys
	site  siteLog

	stamp    string            // of the file that was loaded last
	problems schedule.Problems // of the file as it is now
	broken   bool              // the file as it is now can't be shown
	failed   string            // why it can't be solved
	notice   string            // what the last key did or why it did nothing

	prompt prompt
	query  string // what was looked for last
	filter string
	page   overlay
	tight  tightness // of what the page is about
	sheets *sheetLines
	picked bool // the user has chosen something

	inquiries map[pageKind]*inquiry // of pages that work for their answer, about the crew programme
}

func newApp(opts Options) app {
	return app{opts: opts, wait: wait, kept: schedule.Nothing, sheets: &sheetLines{},
		keys: defaultKeys(), moves: views.DefaultMoves(), tryKeys: trials.DefaultKeys(), ticks: defaultTickKeys(),
		window: views.NewWindow(), day: views.NewDay(), deliveries: views.NewDeliveries(),
		people: views.NewPeople()}
}

// Init reads the plan and begins to watch its file.
func (a app) Init() tea.Cmd {
	cmds := []tea.Cmd{load(a.opts)}
	if a.opts.Stat != nil {
		cmds = append(cmds, poll())
	}
	if a.opts.Log != nil {
		cmds = append(cmds, pollLog())
	}
	return tea.Batch(cmds...)
}

// Update handles a message, and then begins the studies that the screen now needs, and
// what the page does.
func (a app) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	next, cmd := a.answer(msg)
	next, more := next.study()
	next, tight := next.tighten()
	return next, tea.Batch(cmd, more, tight)
}

func (a app) answer(msg tea.Msg) (app, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		a.size = draw.Size{Width: msg.Width, Height: msg.Height}
		a.window, a.day = a.window.SetSize(a.size), a.day.SetSize(a.size)
		a.deliveries, a.people = a.deliveries.SetSize(a.size), a.people.SetSize(a.size)
	case pollMsg:
		return a, stat(a.opts)
	case statMsg:
		return a.statted(msg)
	case loadedMsg:
		return a.loaded(msg)
	case solvedMsg:
		return a.solved(msg)
	case foundMsg:
		return a.found(msg)
	case slowMsg:
		return a.slowed(msg)
	case tea.KeyMsg:
		return a.eachPressed(msg)
	case tea.MouseMsg:
		return a.mouse(msg), nil
	}
	return a.answerOthers(msg)
}

// answerOthers handles messages from studies, the log and the files of what-ifs.
func (a app) answerOthers(msg tea.Msg) (app, tea.Cmd) {
	switch msg := msg.(type) {
	case listedMsg, openedMsg, savedMsg:
		return a.filed(msg)
	case draftedMsg:
		return a.drafted(msg), nil
	case writtenMsg, unwrittenMsg, editedMsg:
		return a.filePut(msg)
	case copiedMsg:
		a.notice = msg.words()
	case inquiredMsg, lookMsg:
		return a.inquired(msg)
	case toleratedMsg, pairedMsg, oddsMsg, mendedMsg, studyMsg:
		return a.studied(msg)
	case steppedMsg:
		return a.stepped(msg), nil
	case takenMsg:
		return a.taken(msg)
	case tightMsg:
		return a.tightened(msg), nil
	case logPollMsg, logStatMsg, logReadMsg, addedMsg:
		return a.logMessage(msg)
	}
	return a, nil
}

// statted loads the file again if it has changed.
func (a app) statted(msg statMsg) (app, tea.Cmd) {
	if msg.stamp == a.stamp {
		return a, poll()
	}
	a.stamp = msg.stamp
	if msg.stamp == "" {
		a.notice = draw.Clean(a.opts.Name) + " is gone; the last good plan is shown."
		return a, poll()
	}
	return a, tea.Batch(load(a.opts), poll())
}

// loaded takes a plan that was read, if it has no fault. With a log, the plan as at now
// follows once the log is read.
func (a app) loaded(msg loadedMsg) (app, tea.Cmd) {
	a.stamp, a.problems = msg.stamp, msg.problems
	a.broken = msg.plan == nil || msg.problems.Fatal()
	if a.broken {
		return a, nil
	}
	a.site.file, a.site.read = msg.plan, false
	if a.opts.Log != nil {
		return a, a.readLog()
	}
	return a.take(msg.plan)
}

// take makes a plan the new target, with those changes that still apply.
func (a app) take(plan *schedule.Plan) (app, tea.Cmd) {
	kept, refused := a.want.trials.Fit(plan)
	if refused != nil {
		a.notice = "! Set aside, since the plan is another now: " + refusedWords(refused)
	}
	a.stale = true
	a.halt() // the search is for another plan, or keeps to something else
	next, err := target{filed: plan}.on(kept)
	if err != nil {
		next = target{filed: plan, plan: plan}
	}
	return a.aim(next)
}

// aim makes a target the one to show.
func (a app) aim(t target) (app, tea.Cmd) {
	a.want = t
	a.gen++
	a.supersede()
	if a.solving {
		return a, nil
	}
	a.solving = true
	return a, a.solve()
}

// solved shows a logic programme and looks for the crew programme. If a newer target
// waits, it solves that instead.
func (a app) solved(msg solvedMsg) (app, tea.Cmd) {
	a.solving = false
	if msg.gen != a.gen {
		a.solving = true
		return a, a.solve()
	}
	stale := a.stale
	a.stale = false
	if msg.err != nil {
		a.failed, a.broken = msg.err.Error(), true
		if a.garden != nil {
			a.want = a.shown
		}
		return a, nil
	}
	a.failed = ""
	a.words = wording.New(msg.target.plan)
	if stale {
		a.basis = msg.basis
	}
	a.shown, a.logic, a.crews = msg.target, &msg.solution, nil
	if a.shown.plan == a.basis.plan {
		a.crews = a.basis.crews
	}
	return a.show().look()
}

// waiting says whether the crew programme before stands on the screen until that of what
// is wanted is found.
func (a app) waiting() bool {
	return a.crews == nil && !a.logicOnly && a.garden != nil && a.garden.Programme.Scope == schedule.Crews
}

// show makes the garden of the crew programme, or of the logic programme if that is
// wanted or no other was found before. No figure ever jumps to that of logic and back.
func (a app) show() app {
	solution := a.logic
	if a.crews != nil && !a.logicOnly {
		solution = a.crews
	} else if a.waiting() {
		return a
	}
	was, t := a.garden, a.keptChoice()
	a.garden = &draw.Garden{
		Case: solution.Case, Filed: a.shown.filed, Words: a.words, Now: a.opts.Now(),
		Numbers: a.numbers(), Issues: a.site.agreed.Issues, Standing: a.site.standing,
		Tolerances: a.tolerances(), Trial: solution.trial, Agreed: a.agreed(solution), Planned: a.site.agreed.Planned,
		Mends: a.mends(), EndMends: a.keys.EndMends.Help().Key, Chance: a.chance(),
		TickNow: a.ticks.Tick.Help().Key, TickEarlier: a.ticks.At.Help().Key,
	}
	a = a.spread()
	if was == nil {
		return a
	}
	if task, ok := was.Plan.Task(t); ok {
		return a.rechoose(was.Plan.Tasks[task].ID, t)
	}
	if d, ok := was.Plan.Delivery(t); ok && int(d) < len(a.garden.Plan.Deliveries) {
		if now := a.garden.Plan.Unload(d); now != t {
			return a.choose(now) // the plan has more tasks now, or fewer
		}
	}
	return a
}

// View draws the page or the view that is shown.
func (a app) View() string {
	c := a.chrome()
	switch {
	case a.garden == nil || a.page.kind != noPage || a.tab == oddsTab:
		return a.viewPage(c)
	case a.tab == peopleTab:
		return a.people.View(c, a.opts.Theme)
	case a.tab == dayTab:
		return a.day.View(c, a.opts.Theme)
	case a.tab == deliveriesTab:
		return a.deliveries.View(c, a.opts.Theme)
	}
	return a.window.View(c, a.opts.Theme)
}
