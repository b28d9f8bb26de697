//go:build unix

package ground

import (
	"os"
	"time"

	"github.com/charmbracelet/x/term"
	"golang.org/x/sys/unix"
)

// Ask asks the terminal at both ends for its background, and waits no longer than so long.
// It is unknown where the terminal doesn't answer by then. What is typed meanwhile is lost.
func Ask(in, out *os.File, wait time.Duration) Ground {
	state, err := term.MakeRaw(in.Fd())
	if err != nil {
		return Unknown
	}
	defer func() { _ = term.Restore(in.Fd(), state) }()
	if _, err := out.WriteString(question); err != nil {
		return Unknown
	}
	var text []byte
	buf := make([]byte, 256)
	for end := time.Now().Add(wait); ; {
		left := int(time.Until(end) / time.Millisecond)
		ready := []unix.PollFd{{Fd: int32(in.Fd()), Events: unix.POLLIN}}
		switch n, err := unix.Poll(ready, max(left, 0)); {
		case err == unix.EINTR:
			continue
		case err != nil || n == 0:
			g, _ := answered(text)
			return g
		}
		n, err := unix.Read(int(in.Fd()), buf)
		text = append(text, buf[:max(n, 0)]...)
		if g, all := answered(text); all || err != nil || n <= 0 {
			return g
		}
	}
}
