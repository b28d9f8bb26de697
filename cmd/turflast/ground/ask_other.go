//go:build !unix

package ground

import (
	"os"
	"time"
)

// Ask asks nothing: terminals of this system aren't known to answer.
func Ask(_, _ *os.File, _ time.Duration) Ground { return Unknown }
