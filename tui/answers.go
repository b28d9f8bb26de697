package tui

import tea "github.com/charmbracelet/bubbletea"

// dropAnswers returns a filter of messages without what a terminal answers late to the
// question for its background: the library reads "ESC ] 11;rgb:… ESC \" (or BEL) as keys, and
// they would act.
func dropAnswers() func(tea.Model, tea.Msg) tea.Msg {
	inside := false
	return func(_ tea.Model, msg tea.Msg) tea.Msg {
		k, ok := msg.(tea.KeyMsg)
		if !ok {
			return msg
		}
		was := inside
		switch {
		case k.String() == "alt+]":
			inside = true
			return nil
		case was && k.Type == tea.KeyRunes && !k.Alt && ofAnswer(k.Runes):
			return nil
		}
		inside = false
		if was && (k.String() == `alt+\` || k.Type == tea.KeyCtrlG) {
			return nil
		}
		return msg
	}
}

// ofAnswer says whether characters can be of an answer: "11;rgb:1e1e/1e1e/2e2e".
func ofAnswer(runes []rune) bool {
	for _, r := range runes {
		switch {
		case r >= '0' && r <= '9', r >= 'a' && r <= 'g', r >= 'A' && r <= 'F':
		case r == ';' || r == ':' || r == '/' || r == 'r':
		default:
			return false
		}
	}
	return true
}
