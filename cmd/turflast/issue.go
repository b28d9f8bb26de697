package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/issue"
)

// issues reads the issues of a plan, oldest first. The error is that of the first one that
// can't be read; those that can are there all the same.
func (p *program) issues(src source) ([]*issue.Issue, error) {
	return readFrozen(src, "issue", issue.Read, func(x *issue.Issue, number int) { x.Number = number })
}

func (p *program) issueCommand() *cobra.Command {
	var by string
	var asJSON bool
	c := &cobra.Command{
		Use:   "issue",
		Short: "Freeze what is handed out to the crews: the sheets with their numbers",
		Long: `Freeze what the crews' sheets say, as a file beside the plan, before they are printed:
plan.yaml has plan.issue-1.json, the next is plan.issue-2.json. None is ever written
over. Not every crew gets each issue: --crew names those that do.

From then on each short number belongs to its task or lorry for good, and the sheets say
which issue they are, or that they aren't any; "turflast changed" tells each crew what
differs from the last issue it got.`,
		Example: "  turflast issue\n  turflast issue --crew masons --crew planting\n  turflast issue list",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) > 0 {
				return unknownCommand(c, args[0], "list")
			}
			return nil
		},
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE:              func(c *cobra.Command, _ []string) error { return p.issue(c, by, asJSON) },
	}
	addAsAt(c)
	p.addLonger(c)
	c.Flags().StringArray("crew", nil, "for this `CREW` alone, by its id or name; several times for several")
	c.Flags().StringVar(&by, "by", "", "the `NAME` of who hands it out, else your user name")
	c.Flags().BoolVar(&asJSON, "json", false, "print it as JSON")
	if err := c.RegisterFlagCompletionFunc("crew", p.completeCrews); err != nil {
		panic(err) // the option is there, some lines above
	}
	c.AddCommand(p.issueListCommand())
	return c
}

func (p *program) issue(c *cobra.Command, by string, asJSON bool) error {
	s, solver, err := p.unsolved(c, nil)
	if err != nil {
		return err
	}
	crews, err := s.crews(c, p)
	switch {
	case err != nil:
		return err
	case s.source.path == "":
		return fmt.Errorf("%s has no file that an issue could lie beside; "+
			"\"turflast new\" or \"turflast demo\" makes one", s.source.name)
	case s.unread != nil:
		return s.unread
	}
	if s.Case, err = p.programme(c, solver, s.agreed); err != nil {
		return err
	}
	x, path, text, err := p.handOut(s, crews, by)
	if err != nil {
		return err
	}
	if asJSON {
		_, err = p.stdout.Write(text)
	} else {
		_, err = fmt.Fprintln(p.stdout, printable(path+": "+wording.New(s.Plan).IssuedTo(x)))
	}
	if err != nil {
		return err
	}
	return s.met()
}

// crews are those that the option names, each once; none for everyone.
func (s *solved) crews(c *cobra.Command, p *program) ([]schedule.CrewID, error) {
	names, err := c.Flags().GetStringArray("crew")
	if err != nil {
		return nil, err
	}
	words := s.words(p)
	var out []schedule.CrewID
	for _, name := range names {
		id, err := words.Crew(name)
		if err != nil {
			return nil, misread(c, "--crew: ", err, nil)
		}
		if !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return out, nil
}

// handOut writes a programme as the issue that follows those there are. One that is written
// at the same time by another keeps its number, and its numbers count here.
func (p *program) handOut(s *solved, crews []schedule.CrewID,
	by string) (x *issue.Issue, path string, text []byte, err error) {
	r := s.records
	for {
		var numbers []issue.Number
		for _, n := range r.numbers(s.Plan).Given() {
			numbers = append(numbers, issue.Number(n))
		}
		x = issue.Freeze(s.Case, crews, numbers)
		x.Number = 1
		if n := len(r.issues); n > 0 {
			x.Number = r.issues[n-1].Number + 1
		}
		x.At, x.By, x.Digest = calendars.InstantOf(p.env.Now()), p.writer(by), p.digest
		var out bytes.Buffer
		if err := x.Write(&out, s.Plan.Site.Location); err != nil {
			return nil, "", nil, err
		}
		path = s.source.frozenPath("issue", x.Number)
		if err = createFile(path, out.Bytes()); !errors.Is(err, fs.ErrExist) {
			return x, path, out.Bytes(), err
		}
		was := len(r.issues)
		if r = p.records(s.source); r.unread != nil || len(r.issues) == was {
			return nil, "", nil, errors.Join(r.unread, err)
		}
	}
}

func (p *program) issueListCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use: "list", Short: "Print the issues, oldest first",
		Long:              "Print the issues of the plan, oldest first: when each was handed out, by whom and to whom.",
		Args:              atMost(0),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE: func(c *cobra.Command, _ []string) error {
			plan, src, err := p.mustLoad(c, nil)
			if err != nil {
				return err
			}
			list, err := p.issues(src)
			if err != nil {
				return err
			}
			return p.print(asJSON,
				func(out io.Writer) error { return report.IssuesJSON(out, plan, list) },
				func() *page.Document { return report.Issues(plan, list) })
		},
	}
	addJSON(c, &asJSON)
	return c
}

func (p *program) changedCommand() *cobra.Command {
	s := &sheetRun{p: p}
	c := p.sheet(s, "changed [CREW]", "Print what differs for each crew from the last issue it got",
		`Print for each crew, or for one, what differs from the sheets that it got last with
"turflast issue": what moved, is new or gone, has other heads or another place, and what
was logged since.`,
		"  turflast changed\n  turflast changed masons", false, (*sheetRun).changed)
	c.Args, c.ValidArgsFunction = atMost(1), p.completeCrews
	c.RunE = func(c *cobra.Command, args []string) error {
		if len(args) > 0 {
			s.crewWord = args[0]
		}
		return s.changed(c)
	}
	return c
}

func (s *sheetRun) changed(c *cobra.Command) error {
	x, b, err := s.book(c)
	if err != nil {
		return err
	}
	if x.unread != nil {
		return x.unread
	}
	if len(x.issues) == 0 {
		return errors.New(strings.TrimSuffix(wording.NothingIssued, "."))
	}
	now := issue.Freeze(x.Case, nil, nil)
	var list []report.Since
	add := func(crew schedule.CrewID, id string) {
		last := issue.Last(x.issues, id)
		one := report.Since{Crew: crew, Last: last}
		if last != nil {
			one.Differs = issue.Compare(last, now, id)
		}
		list = append(list, one)
	}
	for i := range x.Plan.Crews {
		if id := schedule.CrewID(i); s.crew == sheets.Everyone || s.crew == id {
			add(id, x.Plan.Crews[i].ID)
		}
	}
	if s.crew == sheets.Everyone {
		if add(sheets.Everyone, ""); len(list[len(list)-1].Differs) == 0 {
			list = list[:len(list)-1]
		}
	}
	w := report.NewSheets(b)
	return s.write(x, func(out io.Writer) error { return w.ChangedJSON(out, list) },
		func() *page.Document { return w.Changed(list) })
}

// issued says which issue the sheet of a crew, or of everyone, is of.
func (s *solved) issued(crew schedule.CrewID) string {
	if s.unread != nil {
		return wording.IssuesUnread
	}
	ids, name := sheets.Told(s.Plan, crew), ""
	if crew != sheets.Everyone {
		name = ids[0]
	}
	return wording.New(s.Plan).IssueLine(issue.Stand(s.issues, issue.Freeze(s.Case, nil, nil), ids...), name)
}
