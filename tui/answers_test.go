package tui

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
)

// typed collects the runes of the keys that reach the screen.
func typed(msgs []tea.Msg) string {
	var out strings.Builder
	filter := dropAnswers()
	for _, m := range msgs {
		if k, ok := filter(nil, m).(tea.KeyMsg); ok {
			out.WriteString(k.String() + " ")
		}
	}
	return out.String()
}

func runes(s string, alt bool) tea.Msg {
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(s), Alt: alt}
}

// A late answer of the terminal acts as no key, whole or in parts; what is typed does.
func TestLateAnswersAreNoKeys(t *testing.T) {
	begin, end := runes("]", true), runes(`\`, true)
	bell := tea.KeyMsg{Type: tea.KeyCtrlG}
	for _, test := range []struct {
		name string
		msgs []tea.Msg
		want string
	}{
		{"ended by ST", []tea.Msg{begin, runes("11;rgb:1e1e/1e1e/2e2e", false), end, runes("j", false)}, "j "},
		{"ended by BEL", []tea.Msg{begin, runes("11;rgb:ffff/ffff/ffff", false), bell, runes("2", false)}, "2 "},
		{"in parts", []tea.Msg{begin, runes("11;rg", false), runes("b:0/0/0", false), bell, runes("2", false)}, "2 "},
		{"cut short", []tea.Msg{begin, runes("11;", false), runes("j", false), runes("1", false)}, "j 1 "},
		{"none", []tea.Msg{runes("1", false), runes("d", false), bell}, "1 d ctrl+g "},
	} {
		if got := typed(test.msgs); got != test.want {
			t.Errorf("%s: %q reaches the screen, want %q", test.name, got, test.want)
		}
	}
}
