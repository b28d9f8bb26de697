package wall

import (
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/window"
	"build.example/turflast/schedule/show/wording"
)

// key is a mark and what it means.
type key struct {
	means string
	wide  float64 // of the mark
	mark  func(c *canvas, x, y float64)
}

// draw draws a mark from x on with its meaning, and returns how wide that is.
func (k *key) draw(c *canvas, x, y float64, f font) float64 {
	k.mark(c, x, y)
	return k.wide + 1.2 + c.text("", f, x+k.wide+1.2, y+f.size*1.15, k.means)
}

// legend lists the marks of the chart.
func (p *leaf) legend() []key {
	size := p.font.size
	mid := size * barShare / 2
	swatch := func(g window.Ground, means string) key {
		return key{means, size * 1.6, func(c *canvas, x, y float64) {
			b := bar{ground: g, work: [][2]float64{{x, x + size*1.6}}}
			p.shape(c, &b, y)
		}}
	}
	keys := []key{swatch(window.Chain, wording.MarkChain)}
	if p.o.Slips {
		keys = append(keys, swatch(window.Tight, wording.MarkTight), swatch(window.Free, wording.MarkFree))
	} else {
		keys = append(keys, swatch(window.Free, wording.MarkWork))
	}
	keys = append(keys, swatch(window.Late, wording.MarkLate),
		key{wording.MarkCure, size * 1.4, func(c *canvas, x, y float64) { c.line("cure", x, y+mid, x+size*1.4, y+mid) }},
		key{wording.MarkHold, size * 0.7, func(c *canvas, x, y float64) { c.circle("open", x+size*0.35, y+mid, size*0.3) }})
	for _, out := range []bool{false, true} {
		means, down := wording.MarkIn, 1.0
		if out {
			means, down = wording.MarkOut, -1.0
		}
		keys = append(keys, key{means, p.mark(), func(c *canvas, x, y float64) {
			m, up := p.mark(), p.mark()*0.42*down
			c.path("ink", "M"+round(x)+" "+round(y+mid-up)+"h"+round(m)+"L"+round(x+m/2)+" "+round(y+mid+up)+"z")
		}})
	}
	if p.c.Plan.Progress != nil {
		for _, st := range []sheets.State{sheets.Ticked, sheets.InHand} {
			means := wording.MarkDone
			if st == sheets.InHand {
				means = wording.MarkInHand
			}
			keys = append(keys, key{means, p.mark(), func(c *canvas, x, y float64) { p.stateMark(c, st, x, y, "") }})
		}
	}
	night := func(c *canvas, x, y float64) { c.rect("seam", x, y, seamWidth, size*barShare) }
	return append(keys, key{wording.MarkNight, seamWidth, night})
}
