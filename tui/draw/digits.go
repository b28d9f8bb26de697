package draw

// digits are the figures of big times, three lines each.
var digits = [10][3]string{
	{"┏━┓", "┃ ┃", "┗━┛"},
	{" ╺┓", "  ┃", "  ╹"},
	{"╺━┓", "┏━┛", "┗━╸"},
	{"╺━┓", " ━┫", "╺━┛"},
	{"╻ ╻", "┗━┫", "  ╹"},
	{"┏━╸", "┗━┓", "╺━┛"},
	{"┏━╸", "┣━┓", "┗━┛"},
	{"╺━┓", "  ┃", "  ╹"},
	{"┏━┓", "┣━┫", "┗━┛"},
	{"┏━┓", "┗━┫", "╺━┛"},
}

// bigWidth is the width of a big time in columns.
const bigWidth = 17

// bigTime writes a time such as 07:30 three lines high.
func (c *canvas) bigTime(x, y int, clock string, st Style) {
	for _, r := range clock {
		if r < '0' || r > '9' {
			c.set(x, y+1, ":", st)
			x += 2
			continue
		}
		for line, strokes := range digits[r-'0'] {
			c.put(x, y+line, strokes, st)
		}
		x += 4
	}
}
