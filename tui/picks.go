package tui

import (
	"fmt"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/tui/draw"
)

// pick is something that can be chosen by its place in a list, for an event.
type pick struct {
	label string
	event sitelog.Event
}

// offerPicks asks which crew, given or fault a tick is about, or says that there is none.
func (a app) offerPicks(t ticking) app {
	p, on := a.want.plan, a.day.Date()
	none := ""
	switch t.verb {
	case tickPeople:
		none = "The plan has no crews."
		for i := range p.Crews {
			e := t.event
			e.What, e.Crew, e.Date = sitelog.People, p.Crews[i].ID, on
			t.picks = append(t.picks, pick{p.Crews[i].Name, e})
		}
		if c := a.day.Crew(); c >= 0 && int(c) < len(t.picks) {
			t.event = t.picks[c].event
			a.prompt = prompt{kind: textPrompt, ticking: t}
			return a
		}
	case tickGiven:
		none = "Nothing that others give is still to come."
		for i := range p.Givens {
			e := t.event
			e.What, e.Given = sitelog.Given, p.Givens[i].ID
			if s := a.site.standing; s == nil || s.State.Givens[e.Given] == 0 {
				t.picks = append(t.picks, pick{wording.Capital(p.Givens[i].What), e})
			}
		}
	case tickRight:
		none = "No fault is open."
		for _, s := range a.garden.Book().Snags {
			e := t.event
			e.What, e.Of = sitelog.SnagClosed, s.ID
			t.picks = append(t.picks, pick{s.Text, e})
		}
	}
	if len(t.picks) == 0 {
		a.notice = none
		return a
	}
	a.prompt = prompt{kind: pickPrompt, ticking: t}
	return a
}

// enterPick takes what was chosen: by its number, or the only one.
func (a app) enterPick() (app, tea.Cmd) {
	t := a.prompt.ticking
	n, err := strconv.Atoi(a.prompt.text)
	if err != nil && len(t.picks) == 1 {
		n = 1
	}
	if n < 1 || n > len(t.picks) {
		a.prompt.text, a.prompt.fault = "", "Type one of the numbers."
		return a, nil
	}
	e := t.picks[n-1].event
	a.prompt = prompt{}
	if e.What == sitelog.People {
		a.prompt = prompt{kind: textPrompt, ticking: ticking{verb: t.verb, event: e}}
		return a, nil
	}
	return a.add(e)
}

// pickWords lists what can be chosen.
func (a app) pickWords() string {
	t := a.prompt.ticking
	if e := &t.picks[0].event; e.What == sitelog.Undone {
		return t.picks[0].label + ": enter takes it back, esc leaves it"
	}
	asks := map[verb]string{
		tickPeople: "Which crew", tickGiven: "What is there", tickRight: "What has been put right",
	}[t.verb]
	var list []string
	for i, x := range t.picks {
		list = append(list, fmt.Sprintf("%d %s", i+1, draw.Clean(x.label)))
	}
	text := asks + ": " + a.prompt.text + "▁ " + strings.Join(list, ", ")
	if len(t.picks) == 1 {
		text += "; enter takes it"
	}
	return text
}

// crewNamed is the name of a crew by its id.
func (a app) crewNamed(id string) string {
	if c := a.want.plan.FindCrew(id); c != schedule.None {
		return a.want.plan.Crews[c].Name
	}
	return id
}
