package tui

import (
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/tui/draw"
)

// prompted handles a key while words to find or a filter are typed. At every letter a
// find chooses a match, and a filter filters.
func (a app) prompted(k tea.KeyMsg) app {
	switch k.Type {
	case tea.KeyEnter:
		a.prompt = prompt{}
		return a
	case tea.KeyEsc:
		if a.prompt.kind == filterPrompt {
			a.filter = ""
			a = a.spread()
		} else {
			a.query, a.page.query = "", ""
		}
		a.prompt = prompt{}
		return a
	case tea.KeyDown, tea.KeyTab:
		return a.find(1)
	case tea.KeyUp, tea.KeyShiftTab:
		return a.find(-1)
	}
	next, ok := a.prompt.typed(k)
	if !ok {
		return a
	}
	a.prompt = next
	if a.prompt.kind == filterPrompt {
		a.filter = a.prompt.text
		return a.spread()
	}
	if a.page.kind != noPage {
		a.page.query = a.prompt.text
	} else {
		a.query = a.prompt.text
	}
	return a.find(0)
}

// again goes to the next or the previous of what was found.
func (a app) again(by int) app {
	query := a.query
	if a.page.kind != noPage {
		query = a.page.query
	}
	if query == "" {
		a.notice = "Nothing was looked for yet: " + a.keys.Find.Help().Key + " finds."
		return a
	}
	at, of := a.hits(query)
	if of == 0 {
		a.notice = fmt.Sprintf("Nothing has %q.", draw.Clean(query))
		return a
	}
	if next := a.hit(query, by); next.page != a.page || next.keptChoice() != a.keptChoice() {
		a = next
		at, _ = a.hits(query)
	}
	a.notice = fmt.Sprintf("%q: %d of %d.", draw.Clean(query), at, of)
	return a
}

// find goes to what is typed: some places on from the present one, if that is found too.
func (a app) find(by int) app {
	if a.prompt.kind != findPrompt {
		return a
	}
	return a.hit(a.prompt.text, by)
}

// hit goes to the activity, or the line of a page, that is some places on among those
// that have a query, or to the first of them if the present one isn't among them.
func (a app) hit(query string, by int) app {
	if a.page.kind != noPage {
		return a.hitLine(query, by)
	}
	if a.garden == nil {
		return a
	}
	list := found(a.garden, query)
	if len(list) == 0 {
		return a
	}
	a.picked = true
	at := 0
	if i := slices.Index(list, a.keptChoice()); i >= 0 {
		at = (i + by + len(list)) % len(list)
	}
	return a.choose(list[at])
}

// foundLines returns the lines of the page that have a query.
func (a app) foundLines(query string) []int {
	var out []int
	query = strings.ToLower(query)
	for i, l := range a.pageLines() {
		if query != "" && strings.Contains(strings.ToLower(l.String()), query) {
			out = append(out, i)
		}
	}
	return out
}

// hitLine is hit on a page: it scrolls the line into sight, or chooses it in a list.
func (a app) hitLine(query string, by int) app {
	list := a.foundLines(query)
	if len(list) == 0 {
		return a
	}
	at, _ := slices.BinarySearch(list, a.page.hit)
	at = min(at, len(list)-1)
	if list[at] == a.page.hit {
		at = (at + by + len(list)) % len(list)
	}
	room := draw.PageRoom(a.chrome(), a.size)
	a.page.hit = list[at]
	if a.page.kind.lists() {
		a.page.chosen = list[at]
	}
	a.page.top = max(min(a.page.top, list[at]), list[at]-room+1)
	return a
}

// hits returns which of those that have a query the present one is, from 1, and how many
// there are.
func (a app) hits(query string) (at, of int) {
	if a.page.kind != noPage {
		list := a.foundLines(query)
		return slices.Index(list, a.page.hit) + 1, len(list)
	}
	if a.garden == nil {
		return 0, 0
	}
	list := found(a.garden, query)
	return slices.Index(list, a.keptChoice()) + 1, len(list)
}
