package main

import (
	"fmt"
	"io"
	"sync"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/show/wording"
)

// soon is how long a search goes on in silence, and often how long a line then
// stands before it is rewritten.
const (
	soon  = 500 * time.Millisecond
	often = 200 * time.Millisecond
)

// watch shows on standard error how a search goes. On a terminal that is one
// line, which is rewritten; elsewhere a line after half a second, and then
// another whenever ten times as long has passed.
type watch struct {
	out      io.Writer
	rewrites bool
	words    *wording.Writer

	mu    sync.Mutex
	begun time.Time
	next  time.Duration // from begun: when the next line is due
	best  calendars.Instant
	text  string // what goes on
	told  bool   // a line stands to be wiped
	over  bool
	ended chan struct{}
}

// watch begins to watch a search by the clock.
func (p *program) watch(words *wording.Writer) *watch {
	w := &watch{
		out: p.stderr, rewrites: p.env.Rewrites, words: words, begun: p.env.Now(), next: soon,
		text: "looking for a crew programme; Ctrl-C ends the search", ended: make(chan struct{}),
	}
	go func() {
		tick := time.NewTicker(often)
		defer tick.Stop()
		for {
			select {
			case <-w.ended:
				return
			case <-tick.C:
				w.look(p.env.Now())
			}
		}
	}()
	return w
}

// better notes a better programme. A search that starts again may report one
// that is worse than what was found before.
func (w *watch) better(p solve.Progress) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.best == 0 || p.Finish < w.best {
		w.best = p.Finish
		w.text = fmt.Sprintf("looking for better than %s; Ctrl-C keeps that", w.words.Moment(w.best))
	}
	if p.Step > 0 {
		w.text = w.step(p)
	}
}

// step says how far a longer search is: the step, when the best found so far is done, and
// by when it might be at the best, by what is proven.
func (w *watch) step(p solve.Progress) string {
	text := fmt.Sprintf("step %d of %d: %s", p.Step, p.Steps, w.words.Moment(w.best))
	if p.Bound.IsReal() && p.Bound != 0 && p.Bound < w.best {
		text += ", at best " + w.words.Moment(p.Bound)
	}
	return text + "; Ctrl-C keeps it"
}

// say changes the text about what is going on.
func (w *watch) say(text string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.text = text
}

// look writes a line if one is due.
func (w *watch) look(now time.Time) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.over || now.Sub(w.begun) < w.next {
		return
	}
	text := printable(w.text)
	if w.rewrites {
		fmt.Fprintf(w.out, "\r\x1b[K%s", text)
		w.told, w.next = true, now.Sub(w.begun)
		return
	}
	fmt.Fprintln(w.out, "turflast: "+text)
	for w.next <= now.Sub(w.begun) {
		w.next *= 10
	}
}

// end stops watching and wipes the line. It may be called more than once.
func (w *watch) end() {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.over {
		return
	}
	w.over = true
	close(w.ended)
	if w.told {
		fmt.Fprint(w.out, "\r\x1b[K")
	}
}
