package planfile_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile"
)

const lateStone = `# on the phone, Tuesday
format: 1
name: Stone late
note: >
  the quarry rang;
  no wagon before Thursday
changes:
  - stone 2d later
  - '"Larch frame" 3h longer'
  - joiners 1 fewer on 2027-05-05 and 2027-05-06
`

func TestReadWhatIf(t *testing.T) {
	set, problems := planfile.ReadWhatIf(strings.NewReader(lateStone))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	var got []string
	for _, c := range set.Changes {
		got = append(got, c.String())
	}
	want := []string{"stone 2d later", `"Larch frame" 3h longer`, "joiners 1 fewer on 2027-05-05 and 2027-05-06"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if set.Name != "Stone late" || set.Note != "the quarry rang; no wagon before Thursday" {
		t.Errorf("name %q, note %q", set.Name, set.Note)
	}
	if at := set.Changes[1].Pos; at.Line != 9 || at.Column != 6 {
		t.Errorf("the second change is at %v", at)
	}
}

func TestBadWhatIfs(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "1:1: the file holds no what-if; `turflast whatif --save` writes one"},
		{"name: a\n", "1:1: the what-if lacks changes; add changes: [stone 2d later]"},
		{"changes: [stone 2d later]\n", "1:1: the what-if lacks name; add name: Stone late"},
		{"format: 2\nname: a\nswaps: [stone]\n",
			"1:9: this what-if is of format 2, and this turflast reads up to 1: a newer one wrote it; use that one"},
		{"format: new\nname: a\nchanges: [stone 2d later]\n",
			`1:9: format of the what-if: "new" is not a whole number; write digits alone, like 4`},
		{"name: a\nchanges: []\n", "2:10: changes is empty; write at least one, like stone 2d later"},
		{"name: a\nchange: [stone 2d later]\n", "2:1: unknown key \"change\" in the what-if; did you mean \"changes\"?"},
		{"name: a\nchanges: [stone 2d latter]\n",
			"2:20: change \"stone 2d latter\": \"latter\" can't stand here; did you mean \"later\"?"},
		{"name: a\nchanges:\n  - \"stone 2d latter\"\n",
			"3:15: change \"stone 2d latter\": \"latter\" can't stand here; did you mean \"later\"?"},
		{"name: a\nchanges: &all [stone 2d later]\n",
			"2:10: an anchor: \"&all\"; take it out, or put the value in quotes if it starts with &"},
		{"name: a\nchanges: [!!str stone 2d later]\n",
			"2:11: a tag: \"!!str\"; take it out, or put the value in quotes if it starts with !"},
		{"name: a\nname: b\nchanges: [stone 2d later]\n",
			"2:1: \"name\" is given twice; it stands on line 1 already; take one out"},
		{"name: a\nchanges: [stone 2d later]\n---\nname: b\n",
			"3:1: a second document starts here; a what-if is one document; take out this line"},
		{"name: a\nchanges: [{stone: 2d later}]\n",
			"2:11: an entry of changes is a mapping, not a single value; write one value"},
	} {
		set, problems := planfile.ReadWhatIf(strings.NewReader(c.text))
		if set != nil || len(problems) == 0 || problems[0].String() != c.want {
			t.Errorf("%q\ngives %v\nwant  %s", c.text, problems, c.want)
		}
	}
}

// A what-if that is written reads as the same set.
func TestWhatIfRoundTrip(t *testing.T) {
	texts := rapid.SampledFrom([]string{
		"stone 2d later", "power from 2027-05-03 16:00", `"Larch: frame's #1" 3h longer`,
		`drop "drop"`, `"stone, grey" on 2027-05-03 16:00`,
		"site open 2027-05-06 to 24:00", "wet on 2027-05-04, 2027-05-06", "gate closure on 2027-05-05 12:00 1d earlier",
	})
	words := rapid.OneOf(rapid.StringMatching(`[ -~]{0,6}[!-~][ -~]{0,6}`),
		rapid.SampledFrom([]string{"null", "true", "12", "~", "- a", "a: b", "a #b", "größer", "it's"}))
	rapid.Check(t, func(t *rapid.T) {
		set := &schedule.WhatIf{Name: strings.TrimSpace(words.Draw(t, "name"))}
		if rapid.Bool().Draw(t, "noted") {
			set.Note = strings.TrimSpace(words.Draw(t, "note"))
		}
		for _, text := range rapid.SliceOfN(texts, 1, 4).Draw(t, "changes") {
			c, err := planfile.ParseChange(text)
			if err != nil {
				t.Fatal(err)
			}
			set.Changes = append(set.Changes, c)
		}
		var b bytes.Buffer
		if err := planfile.WriteWhatIf(&b, set); err != nil {
			t.Fatal(err)
		}
		read, problems := planfile.ReadWhatIf(bytes.NewReader(b.Bytes()))
		if len(problems) > 0 {
			t.Fatalf("%v in\n%s", problems, b.String())
		}
		var again bytes.Buffer
		if err := planfile.WriteWhatIf(&again, read); err != nil {
			t.Fatal(err)
		}
		if read.Name != set.Name || read.Note != set.Note || b.String() != again.String() {
			t.Fatalf("written\n%s\nread and written again\n%s", b.String(), again.String())
		}
	})
}
