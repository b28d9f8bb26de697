package tui

import (
	"unicode/utf8"

	tea "github.com/charmbracelet/bubbletea"
)

// prompt is a line of text being typed; while it is open it has every key but
// ctrl+c.
type prompt struct {
	kind    promptKind
	text    string
	ticking ticking
	fault   string   // what is wrong with it
	names   []string // the names to choose from
	at      int      // index in names of the one that tab wrote
}

type promptKind uint8

const (
	noPrompt promptKind = iota
	findPrompt
	filterPrompt
	linePrompt // the number of a line of the day, for a tick
	textPrompt // the text of a tick
	changePrompt
	namePrompt // the name to save the changes under
	openPrompt // the what-if to open
)

// longest is how many bytes of text a prompt takes keys up to: more than anyone types on
// purpose.
const longest = 100

// typed returns the prompt after a key, and whether the key was one that types.
func (p prompt) typed(k tea.KeyMsg) (prompt, bool) {
	switch k.Type {
	case tea.KeyRunes, tea.KeySpace:
		if len(p.text) < longest {
			p.text += string(k.Runes)
		}
	case tea.KeyBackspace:
		_, n := utf8.DecodeLastRuneInString(p.text)
		p.text = p.text[:len(p.text)-n]
	case tea.KeyCtrlU:
		p.text = ""
	default:
		return p, false
	}
	return p, true
}
