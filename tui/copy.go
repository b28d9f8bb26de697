package tui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule"
	"build.example/turflast/tui/draw"
)

// copiedMsg is what became of a text for the clipboard.
type copiedMsg struct {
	text string
	err  error
}

// copied copies the sentence of what is chosen or, on a page, all of it.
func (a app) copied() (app, tea.Cmd) {
	text := a.toCopy()
	switch {
	case text == "":
		a.notice = "Nothing is chosen that could be copied."
		return a, nil
	case a.opts.Copy == nil:
		a.notice = "There is no clipboard to copy to."
		return a, nil
	}
	put := a.opts.Copy
	return a, func() tea.Msg { return copiedMsg{text, put(text)} }
}

// toCopy returns the text for the clipboard; empty when there is none.
func (a app) toCopy() string {
	if a.page.kind != noPage || a.tab == oddsTab {
		var lines []string
		for i, l := range a.pageLines() {
			if !a.page.kind.lists() || i == a.page.chosen {
				lines = append(lines, strings.TrimRight(l.String(), " "))
			}
		}
		return strings.TrimSpace(strings.Join(lines, "\n"))
	}
	if a.tab == peopleTab {
		return a.people.Sentence()
	}
	if t := a.chosen(); a.garden != nil && t != schedule.Nothing {
		return a.garden.Sentence(t)
	}
	return ""
}

// words says what was copied. Whether the terminal took it isn't known: it doesn't say.
func (m copiedMsg) words() string {
	if m.err != nil {
		return "! Not copied: " + draw.Clean(m.err.Error()) + "."
	}
	first, rest, _ := strings.Cut(m.text, "\n")
	if rest != "" {
		return "The page was given to the terminal's clipboard."
	}
	return "Given to the terminal's clipboard: " + draw.Clean(first)
}
