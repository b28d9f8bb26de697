package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
)

// tightness is what makes an activity of a programme tight, as it is told on its page.
type tightness struct {
	of        schedule.Activity
	programme *schedule.Programme
	found     *schedule.Tight // nil for nothing, and until it is known
}

// about says whether it is of the activity and the programme that another is of.
func (t tightness) about(other tightness) bool {
	return t.of == other.of && t.programme == other.programme
}

// tightMsg is the answer to a question of what makes an activity tight.
type tightMsg tightness

// tighten looks beside the screen for what makes the activity tight that the page is about,
// unless that is known or looked for already.
func (a app) tighten() (app, tea.Cmd) {
	find := a.opts.Tight
	if a.page.kind != aboutPage || a.garden == nil || a.page.of == schedule.Nothing || find == nil {
		return a, nil
	}
	c := a.garden.Case
	asked := tightness{of: a.page.of, programme: c.Programme}
	if a.tight.about(asked) {
		return a, nil
	}
	a.tight = asked
	return a, func() tea.Msg {
		asked.found = find(c, asked.of)
		return tightMsg(asked)
	}
}

// tightened takes an answer, unless another page is shown meanwhile.
func (a app) tightened(msg tightMsg) app {
	if a.tight.about(tightness(msg)) {
		a.tight = tightness(msg)
	}
	return a
}

// tightOf is what makes an activity tight, as far as it is known.
func (a app) tightOf(of schedule.Activity) *schedule.Tight {
	if a.tight.about(tightness{of: of, programme: a.garden.Programme}) {
		return a.tight.found
	}
	return nil
}
