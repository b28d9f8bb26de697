package main

import (
	"bytes"
	"io"
	"math"
	"os"
	"runtime/debug"
	"time"

	"github.com/charmbracelet/x/term"
	"github.com/mattn/go-isatty"
	"github.com/spf13/cobra"
)

// environment is what the program takes from the machine besides its streams.
type environment struct {
	Getenv   func(string) string
	Now      func() time.Time
	Terminal bool       // both ends are a terminal that can place text: the UI may take the screen
	Rewrites bool       // standard error is a terminal: a line on it can be rewritten
	Rows     func() int // of the terminal that standard output is; nil when it is none
	Settings string     // the folder of the user's settings; empty where there is none
}

// system is the environment of the real process.
func system() environment {
	settings, _ := os.UserConfigDir()
	places := os.Getenv("TERM") != "dumb"
	e := environment{
		Getenv:   os.Getenv,
		Now:      rehearsed(os.Getenv),
		Terminal: isatty.IsTerminal(os.Stdin.Fd()) && isatty.IsTerminal(os.Stdout.Fd()) && places,
		Rewrites: isatty.IsTerminal(os.Stderr.Fd()) && places,
		Settings: settings,
	}
	if isatty.IsTerminal(os.Stdout.Fd()) && places {
		e.Rows = func() int {
			_, rows, err := term.GetSize(os.Stdout.Fd())
			if err != nil || rows < 1 {
				return math.MaxInt // nothing is too long for a screen of unknown size
			}
			return rows
		}
	}
	return e
}

// program is one run of the command line.
type program struct {
	stdin          io.Reader
	stdout, stderr io.Writer
	out            *output // which stdout is
	env            environment

	planFlag string // --plan
	noColor  bool   // --no-color
	noPager  bool   // --no-pager
	light    bool   // --light
	dark     bool   // --dark
	ascii    bool   // --ascii
	longer   steps  // --longer
	command  string // the command that runs, for a fault report
	digest   string // of the plan read last, for a fault report

	filed      asFiled
	interrupts *interrupts // nil before the first search
}

// run is the whole program: arguments and streams in, exit code out.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer, env environment) (code int) {
	out := &output{w: stdout}
	p := &program{stdin: stdin, stdout: out, out: out, stderr: stderr, env: env, command: "turflast"}
	out.first = p.uninterruptible
	defer p.uninterruptible()
	defer func() { p.release(out) }()
	defer func() {
		if v := recover(); v != nil {
			code = p.fail(panicked(v))
		}
	}()
	if err := rehearsal(env.Getenv); err != nil {
		return p.fail(err)
	}
	root := p.root()
	root.SetArgs(crewAndHeads(args))
	root.SetIn(stdin)
	root.SetOut(out)
	root.SetErr(stderr)
	err := root.Execute()
	p.release(out)
	if failed := out.failed(); failed != nil {
		err = failed
	}
	return p.fail(err)
}

// root is the command line: the command without a name, and all others.
func (p *program) root() *cobra.Command {
	root := p.openCommand()
	root.SilenceErrors, root.SilenceUsage = true, true
	root.SetFlagErrorFunc(flagError)
	root.SetHelpTemplate(helpTemplate)
	root.SetUsageTemplate(helpTemplate)
	root.PersistentFlags().StringVar(&p.planFlag, "plan", "", "the plan `FILE`, in place of plan.yaml in this folder")
	root.PersistentFlags().BoolVar(&p.noColor, "no-color", false, "no colours; NO_COLOR in the environment does the same")
	root.PersistentFlags().BoolVar(&p.noPager, "no-pager", false,
		"never show long output by a pager; else $PAGER, or less, does on a terminal")
	root.PersistentPreRun = func(c *cobra.Command, _ []string) {
		p.command = c.CommandPath()
		if p.pages(c) {
			p.out.held = &bytes.Buffer{}
		}
	}
	root.AddCommand(p.checkCommand(), p.reviewCommand(), p.planCommand(), p.whyCommand(), p.oddsCommand(),
		p.sturdierCommand(),
		p.whatIfCommand(), p.compareCommand(), p.recoverCommand(), p.toleranceCommand(),
		p.logCommand(), p.issueCommand(), p.changedCommand(), p.baselineCommand(),
		p.slipCommand(), p.ratesCommand(), p.holidaysCommand(),
		p.todayCommand(), p.aheadCommand(), p.gateCommand(), p.appointmentsCommand(), p.ordersCommand(), p.deskCommand(),
		p.readyCommand(),
		p.paperCommand(), p.calendarCommand(),
		p.newCommand(), p.importCommand(), p.demoCommand(), p.schemaCommand(),
		p.completionCommand(), p.lookCommand(), p.versionCommand())
	root.SetHelpCommand(p.helpCommand())
	p.completeDateOptions(root)
	root.CompletionOptions.DisableDefaultCmd = true
	for _, c := range append(root.Commands(), root) {
		c.DisableFlagsInUseLine = true
	}
	return root
}

// plain says whether colours are unwanted.
func (p *program) plain() bool { return p.noColor || p.env.Getenv("NO_COLOR") != "" }

// version is the version of this build.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "of unknown build"
	}
	v := info.Main.Version
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && (v == "" || v == "(devel)") && len(s.Value) >= 12 {
			v = s.Value[:12]
		}
	}
	if v == "" {
		v = "(devel)"
	}
	return v
}

const helpTemplate = `{{with or .Long .Short}}{{. | trimTrailingWhitespaces}}

{{end}}Usage:
  {{.UseLine}}{{if .HasAvailableSubCommands}}
  {{.CommandPath}} COMMAND [ARGUMENT ...]{{end}}{{if .HasAvailableSubCommands}}

Commands:{{range .Commands}}{{if (or .IsAvailableCommand (eq .Name "help"))}}
  {{rpad .Name .NamePadding }} {{.Short}}{{end}}{{end}}{{end}}{{if .HasAvailableLocalFlags}}

Options:
{{.LocalFlags.FlagUsages | trimTrailingWhitespaces}}{{end}}{{if .HasAvailableInheritedFlags}}

Options of all commands:
{{.InheritedFlags.FlagUsages | trimTrailingWhitespaces}}{{end}}{{if .HasExample}}

Example:
{{.Example}}{{end}}{{if .HasAvailableSubCommands}}

"{{.CommandPath}} COMMAND --help" says more of one command.{{end}}
`
