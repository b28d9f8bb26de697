package tui

import (
	"strings"
	"unicode"
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
	names   []string // the names to choose from, or the lines to be written
	at      int      // index in names of the one that tab wrote
}

type promptKind uint8

const (
	noPrompt promptKind = iota
	findPrompt
	filterPrompt
	linePrompt // the number of a line of the day, for a tick
	textPrompt // the text of a tick
	pickPrompt // the number of something to choose for a tick
	changePrompt
	namePrompt  // the name to save the changes under
	openPrompt  // the what-if to open
	writePrompt // whether to write the changes into the plan's file
	backPrompt  // whether to take back what was written
)

// longest is how many characters of text a prompt takes: more than anyone types on
// purpose.
const (
	longest = 200
	tooLong = "Only the first two hundred characters are taken."
)

// typed returns the prompt after a key, and whether the key was one that types.
func (p prompt) typed(k tea.KeyMsg) (prompt, bool) {
	switch k.Type {
	case tea.KeyRunes, tea.KeySpace:
		text := []rune(p.text + pasted(k.Runes))
		p.text, p.fault = string(text[:min(len(text), longest)]), ""
		if len(text) > longest {
			p.fault = tooLong
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

// pasted returns typed or pasted text without what can't be typed: a line break or a tab
// in it is a space.
func pasted(runes []rune) string {
	return strings.Map(func(r rune) rune {
		switch {
		case strings.ContainsRune("\t\r\n", r):
			return ' '
		case unicode.IsControl(r):
			return -1
		}
		return r
	}, string(runes))
}
