package tui

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/draw/picture"
)

var pictures = flag.String("pictures", "", "a folder into which frames of all sizes and themes are drawn as SVG")

// ground is one way in which a terminal shows a frame.
type ground struct {
	name  string
	theme draw.Theme
	light bool
}

var grounds = []ground{
	{"dark", draw.NewTheme(draw.True, false), false}, {"light", draw.NewTheme(draw.True, true), true},
	{"indexed", draw.NewTheme(draw.Indexed, false), false}, {"sixteen", draw.NewTheme(draw.Sixteen, false), false},
	{"mono", draw.NewTheme(draw.Mono, false), false}, {"ascii", draw.NewTheme(draw.Mono, true).ASCII(), true},
}

// shot draws what the screen shows of the built-in garden after some keys.
func shot(t *testing.T, on ground, s draw.Size, keys string) string {
	b := scene(t, "pictures", s.Width, s.Height)
	a := b.app()
	a.opts.Theme = on.theme
	b.model = a
	b.play(keys)
	return picture.SVG(b.model.View(), s, on.light)
}

// TestPictures keeps the pictures that the manual shows.
func TestPictures(t *testing.T) {
	for _, want := range []struct {
		name, keys string
		size       draw.Size
	}{
		{"window", "start", draw.Size{Width: 120, Height: 40}},
		{"late", `: "turf 1d later" enter w`, draw.Size{Width: 120, Height: 40}},
	} {
		path := filepath.Join("testdata", "pictures", want.name+".svg")
		got := shot(t, grounds[0], want.size, want.keys)
		if *update {
			if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if kept, err := os.ReadFile(path); err != nil || string(kept) != got {
			t.Errorf("%s isn't what the screen shows (%v); -update draws it again", path, err)
		}
	}
}

// TestDrawAll draws every view at four sizes in six ways, to be looked at.
func TestDrawAll(t *testing.T) {
	if *pictures == "" {
		t.Skip("no folder is named with -pictures")
	}
	for _, on := range grounds {
		for width, height := range map[int]int{80: 24, 120: 40, 200: 60, 300: 80} {
			s := draw.Size{Width: width, Height: height}
			for name, keys := range map[string]string{
				"window": "start", "late": `: "turf 1d later" enter w`, "day": "2", "deliveries": "3", "people": "4",
				"odds": "5", "help": "?",
			} {
				path := filepath.Join(*pictures, fmt.Sprintf("%s-%s-%dx%d.svg", name, on.name, s.Width, s.Height))
				if err := os.WriteFile(path, []byte(shot(t, on, s, keys)), 0o644); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
}
