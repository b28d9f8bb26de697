package tui

import (
	"build.example/turflast/schedule"
)

// spread gives the garden, filtered, to the view that is shown.
func (a app) spread() app {
	if a.garden == nil {
		return a
	}
	g := *a.garden
	g.Only = filtered(g.Plan, a.filter)
	a.garden = &g
	return a.give()
}

// give gives the garden to the view that is shown; another gets it once it is.
func (a app) give() app {
	switch a.tab {
	case windowTab:
		a.window = a.window.SetGarden(a.garden)
	case dayTab:
		a.day = a.day.SetGarden(a.garden)
	case deliveriesTab:
		a.deliveries = a.deliveries.SetGarden(a.garden)
	}
	return a
}

// chosen is what the shown view's keys act on.
func (a app) chosen() schedule.Activity {
	switch a.tab {
	case dayTab:
		return a.day.Chosen()
	case deliveriesTab:
		return a.deliveries.Chosen()
	}
	return a.window.Chosen()
}

// turn shows another view, with the same activity chosen where it can be.
func (a app) turn(to tab) app {
	t := a.chosen()
	a.tab, a.page = to, overlay{}
	if a.garden != nil {
		a = a.give()
	}
	if to == dayTab && !a.picked && a.garden != nil && a.garden.Plan.Progress != nil {
		return a // the day is today's while the build is under way
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
	}
	return a
}

// lost is a task that was chosen and that changes have left without a place. Keys go
// on changing it while what is chosen in its stead stays so.
type lost struct {
	id      string
	instead schedule.Activity
}

// rechoose chooses the task that was chosen, which may have another number now, or
// remembers it if it has no place. The window alone shows all tasks at once.
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
