package ground

import "testing"

func TestFromColours(t *testing.T) {
	for v, want := range map[string]Ground{
		"15;0": Dark, "0;15": Light, "0;default;15": Light, "12;8": Dark, "7;0": Dark, "0;7": Light,
		"": Unknown, "15": Unknown, "15;default": Unknown, "0;16": Unknown, "0;-1": Unknown, "0;9": Light,
	} {
		if got := FromColours(v); got != want {
			t.Errorf("%q is %v, want %v", v, got, want)
		}
	}
}

func TestAnswered(t *testing.T) {
	for _, test := range []struct {
		text string
		want Ground
		all  bool
	}{
		{"", Unknown, false},
		{"\x1b]11;rgb:0000/0000/0000\x1b\\", Dark, false},
		{"\x1b]11;rgb:ffff/ffff/ffff\x07\x1b[?62;22c", Light, true},
		{"\x1b]11;rgb:fd/f6/e3\x1b\\\x1b[?1;2c", Light, true},
		{"\x1b]11;rgba:1e1e/1e1e/1e1e/ffff\x1b\\\x1b[?6c", Dark, true},
		{"\x1b[?6c", Unknown, true},
		// Black and white words have the same contrast on a grey of 117 in 255.
		{"\x1b]11;rgb:74/74/74\x07", Dark, false},
		{"\x1b]11;rgb:77/77/77\x07", Light, false},
		{"jj\x1b]11;rgb:f/f/f\x07k\x1b[?6c", Light, true},
	} {
		if got, all := answered([]byte(test.text)); got != test.want || all != test.all {
			t.Errorf("%q: %v, %v; want %v, %v", test.text, got, all, test.want, test.all)
		}
	}
}
