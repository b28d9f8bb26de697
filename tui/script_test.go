package tui

import (
	"flag"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/gardentest"
)

var update = flag.Bool("update", false, "write the frames of the scripts again")

// TestScripts plays the scripts of testdata: the comment's last line is the
// size, a section's name is keys to press one after the other, its body the
// frame after them. Text that is typed stands in quotes.
func TestScripts(t *testing.T) {
	scripts, err := filepath.Glob("testdata/*.txtar")
	if err != nil || len(scripts) == 0 {
		t.Fatal("no scripts", err)
	}
	for _, path := range scripts {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".txtar"), func(t *testing.T) { play(t, path) })
	}
}

func play(t *testing.T, path string) {
	script, err := txtar.ParseFile(path)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(script.Comment)), "\n")
	width, height, ok := strings.Cut(lines[len(lines)-1], " x ")
	w, _ := strconv.Atoi(width)
	h, _ := strconv.Atoi(height)
	if !ok || w == 0 || h == 0 {
		t.Fatalf("%s: the comment ends with no size such as 80 x 24", path)
	}
	b := scene(t, filepath.Base(path), w, h)
	for i := range script.Files {
		f := &script.Files[i]
		b.play(f.Name)
		frame := b.model.View() + "\n"
		if *update {
			f.Data = []byte(frame)
		}
		if d := cmp.Diff(strings.Split(string(f.Data), "\n"), strings.Split(frame, "\n")); d != "" {
			t.Errorf("after %s (-update writes it again):\n%s", f.Name, d)
		}
	}
	if *update {
		if err := os.WriteFile(path, txtar.Format(script), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// scene is a bench for a script.
func scene(t *testing.T, name string, w, h int) *bench {
	if strings.HasPrefix(name, "longer") {
		return looking(t, &further{finds: 2}, w, h)
	}
	b := newBench(t, gardentest.Demo(t), w, h)
	b.file.crews = b.file.real
	if name == "ticks.txtar" {
		b.log().built(b.file.plan)
	}
	b.press("r")
	return b
}

// play presses the keys that a section's name lists.
func (b *bench) play(keys string) {
	for i, part := range strings.Split(keys, `"`) {
		if i%2 == 1 {
			b.press(part)
			continue
		}
		for _, k := range strings.Fields(part) {
			if w, h, ok := strings.Cut(k, "×"); ok {
				width, _ := strconv.Atoi(w)
				height, _ := strconv.Atoi(h)
				b.send(tea.WindowSizeMsg{Width: width, Height: height})
				continue
			}
			if k != "start" {
				b.press(k)
			}
		}
	}
}

// BenchmarkKeyToFrame is a key press to a finished frame, with 1,000 tasks on
// 200 by 60, in each view and on the page of people.
func BenchmarkKeyToFrame(b *testing.B) {
	p := gardentest.Big(1000)
	for _, view := range []struct{ name, key, there, back string }{
		{"window", "1", "down", "up"}, {"window-across", "1", "right", "left"}, {"window-closer", "1", "+", "-"},
		{"window-chain", "1", "[", "]"}, {"day", "2", "right", "left"},
		{"deliveries", "3", "down", "up"}, {"people", "4", "down", "up"}, {"tasks", "a", "down", "up"},
	} {
		b.Run(view.name, func(b *testing.B) {
			bench := newBench(b, p, 200, 60)
			bench.model = coloured(bench.app())
			bench.press(view.key)
			keys := [2]string{view.there, view.back}
			b.ResetTimer()
			for i := 0; b.Loop(); i++ {
				bench.press(keys[i/40%2])
				bench.model.View()
			}
		})
	}
}

func coloured(a app) app {
	a.opts.Theme = draw.NewTheme(draw.True, false)
	return a
}
