package tui

import (
	"build.example/turflast/schedule"
)

// spread filters the garden and gives it to the view that is shown.
func (a app) spread() app {
	if a.garden == nil {
		return a
	}
	g := *a.garden
	g.Only = filtered(g.Plan, a.filter)
	a.garden = &g
	return a.give()
}

// give gives the garden to the view that is shown. Another view gets it when it is
// turned to.
func (a app) give() app {
	switch a.tab {
	case windowTab:
		a.window = a.window.SetGarden(a.garden)
	case dayTab:
		a.day = a.day.SetGarden(a.garden)
	case deliveriesTab:
		a.deliveries = a.deliveries.SetGarden(a.garden)
	case peopleTab:
		a.people = a.people.SetGarden(a.garden)
	}
	return a
}

// chosen returns what the keys of the shown view act on.
func (a app) chosen() schedule.Activity {
	switch a.tab {
	case dayTab:
		return a.day.Chosen()
	case deliveriesTab:
		return a.deliveries.Chosen()
	case peopleTab, oddsTab:
		return schedule.Nothing
	}
	return a.window.Chosen()
}

// keptChoice returns what is chosen or, in a view where no activity can be, what was chosen in
// the one before.
func (a app) keptChoice() schedule.Activity {
	if a.tab == peopleTab || a.tab == oddsTab {
		return a.kept
	}
	return a.chosen()
}

// turn shows another view, with the same activity chosen if it can be.
func (a app) turn(to tab) app {
	t := a.keptChoice()
	a.tab, a.page, a.kept = to, overlay{}, t
	if a.garden != nil {
		a = a.give()
	}
	if to == dayTab && !a.picked && a.garden != nil && a.garden.Plan.Progress != nil {
		return a // while the build is under way the day shown first is today
	}
	return a.choose(t)
}

func (a app) choose(t schedule.Activity) app {
	switch a.tab {
	case windowTab:
		a.window = a.window.Choose(t)
	case dayTab:
		a.day = a.day.Choose(t)
	case deliveriesTab:
		a.deliveries = a.deliveries.Choose(t)
	case peopleTab, oddsTab:
		a.kept = t
	}
	return a
}

// lost is a task that was chosen and has no place since a change. Keys go on changing it
// as long as the activity chosen instead stays chosen.
type lost struct {
	id      string
	instead schedule.Activity
}

// rechoose chooses the task that was chosen, which may have another number now. In the
// window, which alone shows all tasks at once, it remembers a task that has no place.
func (a app) rechoose(id string, was schedule.Activity) app {
	if a.lost.id != "" && a.lost.instead == was {
		id = a.lost.id
	}
	a.lost = lost{}
	p := a.garden.Plan
	now := p.FindTask(id)
	switch {
	case now == schedule.None:
	case a.garden.Shown(now.Activity()):
		if a.tab == windowTab || now.Activity() != was {
			return a.choose(now.Activity())
		}
	case a.tab == windowTab:
		a.lost = lost{id, a.chosen()}
	}
	return a
}
