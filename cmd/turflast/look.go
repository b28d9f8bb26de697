package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"build.example/turflast/cmd/turflast/ground"
	"build.example/turflast/schedule"
	"build.example/turflast/tui"
	"build.example/turflast/tui/draw"
)

// appearance is how the screen looks, each part with what says so.
type appearance struct {
	ground          ground.Ground
	ascii           bool
	groundBy, ascBy string
}

// lookWords are what can be asked of the screen, in a setting or as an option; in each pair
// one rules the other out.
var lookWords = [2][2]string{{"dark", "light"}, {"marks", "ascii"}}

// addLook adds the options that say how the screen looks, this once.
func (p *program) addLook(c *cobra.Command) {
	c.Flags().BoolVar(&p.light, "light", false, "colours for a light background")
	c.Flags().BoolVar(&p.dark, "dark", false, "colours for a dark background")
	c.Flags().BoolVar(&p.ascii, "ascii", false, "marks of ASCII alone")
}

func (p *program) lookCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "look [dark|light] [marks|ascii] [auto]",
		Short: "Say how the screen looks on this terminal, show its marks, or settle it for good",
		Long: `Say whether the screen is drawn for a dark or a light background, and with which
marks, why so, and show the marks in their colours. With words, settle it for all
terminals of yours from now on.

  dark, light   the background
  marks, ascii  marks as drawn, or of ASCII alone
  auto          nothing is settled: it is found out each time

Found out each time: an option of the command; else what was settled; else what the
environment says (COLORFGBG; the locale, TERM for marks); else the screen asks the
terminal for its background, and takes it for dark if no answer comes in a fifth of
a second. No other command asks the terminal anything.

Exit code: 0, or 2 for a word that isn't one of these.`,
		Args: func(c *cobra.Command, args []string) error { return lookArgs(c, args) },
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return []string{"dark", "light", "marks", "ascii", "auto"}, cobra.ShellCompDirectiveNoFileComp
		},
		Example: "  turflast look               what holds, and the marks\n" +
			"  turflast look light ascii   from now on\n" +
			"  turflast look auto          nothing settled any more",
		RunE: p.look,
	}
	p.addLook(c)
	return c
}

// lookArgs refuses words that aren't known, or that rule each other out.
func lookArgs(c *cobra.Command, args []string) error {
	if fault := lookFault(args); fault != "" {
		return &usageError{fault, c.CommandPath()}
	}
	if slices.Contains(args, "auto") && len(args) > 1 {
		return &usageError{`"auto" settles nothing: it stands alone`, c.CommandPath()}
	}
	return nil
}

// lookFault says what is wrong with words of a look; empty if nothing is.
func lookFault(words []string) string {
	for i, w := range words {
		known := w == "auto"
		for _, pair := range lookWords {
			known = known || w == pair[0] || w == pair[1]
			if slices.Contains(words[:i], pair[0]) && w == pair[1] || slices.Contains(words[:i], pair[1]) && w == pair[0] {
				return fmt.Sprintf("%q and %q rule each other out", pair[0], pair[1])
			}
		}
		if !known {
			return fmt.Sprintf("%q is no look: dark or light, marks or ascii, or auto", w)
		}
	}
	return ""
}

func (p *program) look(_ *cobra.Command, args []string) error {
	if len(args) > 0 {
		if err := p.settle(args); err != nil {
			return err
		}
	}
	a, err := p.appearance(false)
	if err != nil {
		return err
	}
	if a.ground == ground.Unknown {
		fmt.Fprintln(p.stdout, "Background: the screen asks the terminal; without an answer it is taken for dark.")
	} else {
		fmt.Fprintf(p.stdout, "Background: %s, by %s.\n", a.ground, a.groundBy)
	}
	marks := "as drawn"
	if a.ascii {
		marks = "of ASCII alone"
	}
	fmt.Fprintf(p.stdout, "Marks: %s, by %s.\n\n", marks, a.ascBy)
	_, err = fmt.Fprint(p.stdout, draw.Print(draw.Legend(), page80, p.theme(a)))
	return err
}

// page80 is the width of the marks' list.
const page80 = 80

// settle writes the setting that stays, whole or not at all; auto takes it away.
func (p *program) settle(words []string) error {
	path := p.lookFile()
	if path == "" {
		return errors.New("there is no folder for settings: HOME isn't set; the options --light, --dark, --ascii do it once")
	}
	if slices.Equal(words, []string{"auto"}) {
		if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("can't take the setting away: %w", err)
		}
		return nil
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return fmt.Errorf("can't keep the setting: %w", err)
	}
	fresh := path + ".new"
	text := fmt.Sprintf("format %d\n%s\n", lookFormat, strings.Join(words, " "))
	err := os.WriteFile(fresh, []byte(text), 0o644)
	if err == nil {
		err = os.Rename(fresh, path)
	}
	if err != nil {
		return fmt.Errorf("can't keep the setting: %w", err)
	}
	return nil
}

// lookFile is the file of the setting; empty where the machine has no place for any.
func (p *program) lookFile() string {
	if p.env.Settings == "" {
		return ""
	}
	return filepath.Join(p.env.Settings, "turflast", "look")
}

// lookFormat is the newest form of the setting that is read, and the one that is written. One
// without a format is of form 1.
const lookFormat = 1

// longestLook is more than any setting takes, in bytes.
const longestLook = 1 << 10

// settled reads the words of the setting; none where there is no file.
func (p *program) settled() ([]string, error) {
	path := p.lookFile()
	if path == "" {
		return nil, nil
	}
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	mend := `; "turflast look auto" takes it away`
	switch {
	case err != nil:
		return nil, fmt.Errorf("the setting of the screen's look can't be read: %w", err)
	case !info.Mode().IsRegular() || info.Size() > longestLook:
		return nil, errors.New(path + ": this is no setting of the screen's look" + mend)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("the setting of the screen's look can't be read: %w", err)
	}
	words, fault := settledWords(string(text))
	if fault != "" {
		return nil, errors.New(path + ": " + fault + mend)
	}
	return words, nil
}

// settledWords are the words of the setting's text, or what is wrong with it.
func settledWords(text string) (words []string, fault string) {
	words = strings.Fields(text)
	if len(words) > 1 && words[0] == "format" {
		if n, err := strconv.Atoi(words[1]); err == nil && n > lookFormat {
			return nil, schedule.NewerFormat("setting", n, lookFormat)
		}
		words = words[2:]
	}
	return words, lookFault(words)
}

// appearance finds out how the screen looks; the terminal is asked only if ask is set and
// nothing else says its background.
func (p *program) appearance(ask bool) (appearance, error) {
	settled, err := p.settled()
	if err != nil {
		return appearance{}, err
	}
	var a appearance
	switch {
	case p.light:
		a.ground, a.groundBy = ground.Light, "option"
	case p.dark:
		a.ground, a.groundBy = ground.Dark, "option"
	case slices.Contains(settled, "light"):
		a.ground, a.groundBy = ground.Light, "the setting in "+p.lookFile()
	case slices.Contains(settled, "dark"):
		a.ground, a.groundBy = ground.Dark, "the setting in "+p.lookFile()
	default:
		a.ground, a.groundBy = ground.FromColours(p.env.Getenv("COLORFGBG")), "COLORFGBG"
		if a.ground == ground.Unknown && ask {
			a.ground, a.groundBy = ground.Ask(os.Stdin, os.Stdout, patience), "the terminal's answer"
		}
	}
	a.ascii, a.ascBy = p.onlyASCII(settled)
	return a, nil
}

// patience is how long the screen waits for a terminal's answer.
const patience = 200 * time.Millisecond

// onlyASCII says whether marks are of ASCII alone, and what says so: the option, the words
// settled, or the environment, by a console without the marks in its font or a locale of
// another encoding.
func (p *program) onlyASCII(settled []string) (bool, string) {
	switch {
	case p.ascii:
		return true, "option"
	case slices.Contains(settled, "ascii"), slices.Contains(settled, "marks"):
		return slices.Contains(settled, "ascii"), "the setting in " + p.lookFile()
	}
	switch term := p.env.Getenv("TERM"); {
	case term == "linux", strings.HasPrefix(term, "vt"):
		return true, "TERM"
	}
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := p.env.Getenv(name); v != "" {
			v = strings.ToLower(v)
			return !strings.Contains(v, "utf-8") && !strings.Contains(v, "utf8"), name
		}
	}
	return false, "default"
}

// theme is the theme of an appearance.
func (p *program) theme(a appearance) draw.Theme {
	th := tui.Theme(a.ground == ground.Light, p.plain())
	if a.ascii {
		th = th.ASCII()
	}
	return th
}
