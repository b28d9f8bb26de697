package planfile_test

import (
	"testing"
	"unicode/utf8"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile"
)

// spoken are changes as people say them, and as they are written back.
var spoken = []struct{ text, want string }{
	{"stone 2d later", ""},
	{"stone  48h   later", "stone 2d later"},
	{"stone 26h earlier", ""},
	{"stone 1w later", "stone 7d later"},
	{"stone on 2027-05-04 10:00", ""},
	{`"Slate for the wall" on 2027-05-04 10:00`, ""},
	{`"stone" 2d later`, "stone 2d later"},
	{`"wet" 2d later`, ""},
	{"power 4h later", ""},
	{"power from 2027-05-03 16:00", ""},
	{"frame 3h longer", ""},
	{"frame 90m shorter", "frame 1h30m shorter"},
	{"frame 48h longer", ""},
	{"drop pots", ""},
	{"drop drop", `drop "drop"`},
	{"joiners 2 more on 2027-05-05", ""},
	{"joiners 1 fewer on 2027-05-05, 2027-05-06", "joiners 1 fewer on 2027-05-05 and 2027-05-06"},
	{"joiners work 2027-05-06 to 20:00", ""},
	{"joiners work 2027-05-06 from 06:00", ""},
	{"joiners work 2027-05-02 09:00 to 15:00", ""},
	{"crane away 2027-05-05 07:00 to 2027-05-05 12:00", "crane away 2027-05-05 07:00 to 12:00"},
	{"crane away 2027-05-05 07:00 to 24:00", ""},
	{"crane away 2027-05-05 07:00 to 2027-05-06 12:00", ""},
	{"crane away on 2027-05-05", ""},
	{"crane ours 2027-05-05 13:00 to 15:00", ""},
	{"crane ours 2027-05-05 13:00 to 2027-05-06 12:00", ""},
	{"frame appointment 2027-05-05 15:00", ""},
	{"frame stops 2027-05-05 13:00 to 15:00", ""},
	{"frame stops 2027-05-05 13:00 to 2027-05-06 08:00", ""},
	{"frame stops on 2027-05-05", ""},
	{`"Larch frame" stops 2027-05-05 13:00 to 24:00`, ""},
	{"wet on 2027-05-04", ""},
	{"windy on 2027-05-04 and 2027-05-06", ""},
	{"wet on 2027-05-04 and 2027-05-06", ""},
	{"site open 2027-05-06 to 20:00", ""},
	{"gate open 2027-05-06 from 06:00", ""},
	{"site open 2027-05-02 09:00 to 24:00", ""},
	{"site closed 2027-05-05 12:00 to 14:00", ""},
	{"gate closed on 2027-05-05", ""},
	{"site closure on 2027-05-05 2h later", ""},
	{"gate closure on 2027-05-05 12:00 1d earlier", ""},
	{`task "Pave the path" in front, paving, masons 2, 8h, after base and power, uses flags, cure 12h, optional`, ""},
	{`task rake in front and lawn, soil, planting 2..4, ground 1, 45m`, ""},
	{`task rake in front, 45m, after "task" and "the base", ground 1, soil`,
		`task rake in front, soil, ground 1, 45m, after "task" and "the base"`},
	{`lorry gravel on 2027-05-06 09:00, unload 30m`, ""},
	{`lorry "40 m2 turf" on 2027-05-06 09:00, keep 48h, unload 30m, for lay and sow, after base`,
		`lorry "40 m2 turf" on 2027-05-06 09:00, unload 30m, keep 48h, for lay and sow, after base`},
	{`lorry "waste skip" on 2027-05-06 09:00, unload 20m, after sweep, out`, ""},
	{"link lay-turf after mulch", ""},
	{`unlink "Larch frame" after footing and "link"`, ""},
	{`"task" 2h longer`, ""},
	{"link deck after roof, start-start, lag 3h, within 2d", "link deck after roof, start-start, lag 3h, within 48h"},
	{"link deck after roof and frame, lead 90m", "link deck after roof and frame, lead 1h30m"},
	{"link deck after roof, within 0m, cure 1d, finish-start", "link deck after roof, cure 24h, within 0m"},
	{"link deck after roof, lag 0m", ""},
	{"roof needs joiners 2..3 and crane 1", ""},
	{`"the roof" needs "two joiners" 2`, ""},
	{"wall-face uses slate and flags", ""},
	{"roof without crane and joiners", ""},
	{"pots in court and lawn", ""},
	{"court-bed cures 36h", ""},
	{"court-bed cures 0m", ""},
	{`rename pots to "Pots by the door"`, ""},
	{`rename "to" to door`, `rename "to" to "door"`},
	{"measure crane ours 2027-05-06 13:00 to 17:00, cost 640", ""},
	{"measure masons 1 more on 2027-05-05 and 2027-05-06, cost 12.5",
		"measure masons 1 more on 2027-05-05 and 2027-05-06, cost 12.50"},
	{"measure masons 1 more on 2027-05-05, 2027-05-06, cost 0",
		"measure masons 1 more on 2027-05-05 and 2027-05-06, cost 0"},
	{"measure link deck after roof, lead 2h, cost 0", ""},
	{`"measure" in court`, ""},
}

func TestParse(t *testing.T) {
	for _, s := range spoken {
		want := s.want
		if want == "" {
			want = s.text
		}
		c, err := planfile.ParseChange(s.text)
		if err != nil {
			t.Errorf("%s: %v", s.text, err)
			continue
		}
		if got := c.String(); got != want {
			t.Errorf("%s is written back as %s, want %s", s.text, got, want)
		}
	}
}

func TestParseFaults(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", `"", column 1: the change is empty; write one like stone 2d later`},
		{"stone",
			`"stone", column 6: the change ends too soon; ` +
				`say what happens to it, like 2d later, 3h longer, 1 fewer on 2027-05-05, or away`},
		{"stone 2d", `"stone 2d", column 9: the change ends too soon; say later, earlier, longer or shorter`},
		{"stone 2d latter", `"stone 2d latter", column 10: "latter" can't stand here; did you mean "later"?`},
		{"stone 2 later", `"stone 2 later", column 7: "2" lacks its unit; write like 2d, 3h or 30m`},
		{"stone 2x later",
			`"stone 2x later", column 7: "2x" is not a length of time; ` +
				`write a whole number of m, h, d or w, like 30m, 7h30m, 2d or 6w`},
		{"stone 0h later", `"stone 0h later", column 7: "0h" is no change; leave the change out`},
		{"stone 2d later please",
			`"stone 2d later please", column 16: "please" is one word too many; give each change apart`},
		{"frame 2d longer",
			`"frame 2d longer", column 7: "2d" is a wait on the clock, not working time; ` +
				`give working time in m and h, like 30m, 4h or 7h30m`},
		{"joiners -1 on 2027-05-05",
			`"joiners -1 on 2027-05-05", column 9: "-1" has a sign; which way is said in words; ` +
				`write like 2d later, 3h shorter or 1 fewer on 2027-05-05`},
		{"joiners 0 more on 2027-05-05",
			`"joiners 0 more on 2027-05-05", column 9: nobody more or fewer is no change; leave the change out`},
		{"joiners 99999 more on 2027-05-05",
			`"joiners 99999 more on 2027-05-05", column 9: "99999" is too large; 10000 is the most`},
		{"joiners 1 less on 2027-05-05",
			`"joiners 1 less on 2027-05-05", column 11: "less" can't stand here; say more or fewer`},
		{"joiners 1 fewer on 2027-05-05, 2027-05-05",
			`"joiners 1 fewer on 2027-05-05, 2027-05-05", column 32: "2027-05-05" is named twice; take one out`},
		{"joiners 1 fewer on 2027-02-30",
			`"joiners 1 fewer on 2027-02-30", column 20: "2027-02-30" is a day that does not exist; ` +
				`that month has the days 01 to 28`},
		{"stone on 2027-05-04", `"stone on 2027-05-04", column 20: the change ends too soon; say a time of day like 10:00`},
		{"stone on 2027-05-04 1000",
			`"stone on 2027-05-04 1000", column 21: "1000" is not a time of day; ` +
				`write hours and minutes in two digits each like 07:00`},
		{"stone onn 2027-05-04 10:00", `"stone onn 2027-05-04 10:00", column 7: "onn" can't stand here; did you mean "on"?`},
		{"drop", `"drop", column 5: the change ends too soon; name a task`},
		{"crane ours on 2027-05-05",
			`"crane ours on 2027-05-05", column 12: "on" is not a date; ` +
				`write the year, month and day like 2027-04-30`},
		{"frame appointment 2027-05-05",
			`"frame appointment 2027-05-05", column 29: the change ends too soon; say a time of day like 10:00`},
		{"wet 2027-05-04", `"wet 2027-05-04", column 5: "2027-05-04" can't stand here; say on`},
		{"site opens 2027-05-06 to 20:00",
			`"site opens 2027-05-06 to 20:00", column 6: "opens" can't stand here; did you mean "open"?`},
		{"site open 2027-05-06 20:00", `"site open 2027-05-06 20:00", column 27: the change ends too soon; say to`},
		{"site open 2027-05-06 until 20:00",
			`"site open 2027-05-06 until 20:00", column 22: "until" can't stand here; say to, from or a time of day like 09:00`},
		{"site open 2027-05-06 15:00 to 09:00",
			`"site open 2027-05-06 15:00 to 09:00", column 31: the hours end before they start; ` +
				`end it after it starts, by 24:00`},
		{"site open 2027-05-06 to 00:00",
			`"site open 2027-05-06 to 00:00", column 25: no hours end at 00:00; write 24:00 for the end of the day`},
		{"site closed 2027-05-05 14:00 to 12:00",
			`"site closed 2027-05-05 14:00 to 12:00", column 33: it ends before it starts; end it after it starts`},
		{"site closure on 2027-05-05 later",
			`"site closure on 2027-05-05 later", column 28: "later" is not a length of time; ` +
				`write a whole number of m, h, d or w, like 30m, 7h30m, 2d or 6w`},
		{`"stone 2d later`, `"\"stone 2d later", column 1: the quote is never closed; close it`},
		{`"" 2d later`, `"\"\" 2d later", column 1: nothing stands in the quotes; put a name between them`},
		{"link a after b, lag", `"link a after b, lag", column 20: the change ends too soon; say a length like 12h`},
		{"link a after b, lead 0m", `"link a after b, lead 0m", column 22: "0m" is nothing; give 1m or more`},
		{"link a after b, lag 1h, cure 2h",
			`"link a after b, lag 1h, cure 2h", column 25: "cure" says a second time what was said before it; say it once`},
		{"link a after b, later", `"link a after b, later", column 17: "later" can't stand here; ` +
			`say finish-start, start-start, finish-finish, start-finish, lag, lead, cure or within`},
		{"roof needs joiners", `"roof needs joiners", column 19: the change ends too soon; say how many`},
		{"roof cures", `"roof cures", column 11: the change ends too soon; say a length like 12h`},
		{"rename roof", `"rename roof", column 12: the change ends too soon; say to`},
		{"measure drop pots",
			`"measure drop pots", column 18: what it costs isn't said; write it behind a comma, like ", cost 400"`},
		{"measure drop pots, cost free", `"measure drop pots, cost free", column 25: "free" is not a number; ` +
			`write digits, with a point before decimals, like 4 or 4.5`},
		{"measure measure drop pots, cost 0, cost 0", `"measure measure drop pots, cost 0, cost 0", column 9: ` +
			`a measure of a measure buys nothing; say what it buys, like masons 1 more on 2027-05-05`},
		{"stone\t2d later", `"stone\t2d later", column 6: a character that can't be seen; take it out`},
	} {
		_, err := planfile.ParseChange(c.text)
		if err == nil || err.Error() != c.want {
			t.Errorf("%s\ngives %v\nwant  %s", c.text, err, c.want)
		}
	}
}

// FuzzChange reads any text without a panic; a fault's column lies in the text,
// and what reads is written back as the same change.
func FuzzChange(f *testing.F) {
	for _, s := range spoken {
		f.Add(s.text)
	}
	f.Add(`site closure on 2027-05-05 12:0 "1d`)
	f.Fuzz(func(t *testing.T, text string) {
		c, err := planfile.ParseChange(text)
		if err != nil {
			fault := schedule.AsChangeFault(err)
			if fault == nil || fault.Column < 1 || fault.Column > utf8.RuneCountInString(text)+1 {
				t.Fatalf("%q gives %v", text, err)
			}
			return
		}
		again, err := planfile.ParseChange(c.String())
		if err != nil || again.String() != c.String() {
			t.Fatalf("%q is written back as %q, which reads as %q, %v", text, c.String(), again.String(), err)
		}
	})
}
