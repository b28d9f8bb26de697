package draw

import "fmt"

// Shaded is a theme that draws the grounds of bars as numbers from 40 on, which tests
// replace by shades.
func Shaded() Theme {
	t := Theme{hued: true}
	for s := OnChain; s < styles; s++ {
		t.begin[s] = fmt.Sprintf("\x1b[%dm", 40+s-OnChain)
	}
	return t
}
