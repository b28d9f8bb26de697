package calendars

import (
	_ "github.com/charmbracelet/bubbles/key"
	_ "github.com/google/go-cmp/cmp"
	_ "github.com/rickar/cal/v2"
	_ "github.com/rogpeppe/go-internal/testscript"
	_ "github.com/spf13/cobra"
	_ "gopkg.in/yaml.v3"
	_ "pgregory.net/rapid"
)
