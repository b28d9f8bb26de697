package slip_test

// tellings are the cases of [TestTold].
var tellings = []struct {
	name, at string
	log      []string
	want     string
}{
	{"all as agreed", "3 12:00", []string{
		"3 08:00 started dig", "3 08:00 started path",
	}, `The hand-over is as agreed in baseline 1: Wed 5 May 11:30, 8 h 30 before the line.`},
	{"a rule", "5 08:00", []string{
		"3 08:00 started dig", "3 08:00 started path", "3 14:00 finished path", "3 15:00 started lamps",
		"4 09:00 finished lamps", "4 11:00 finished dig", "4 11:00 signed dig", "4 08:00 arrived gravel",
		"4 08:30 started arch", "4 12:30 finished arch", "4 11:00 started plant",
	}, `The hand-over is as agreed in baseline 1: Wed 5 May 11:30, 8 h 30 before the line.
Dig: 3 h late. It was finished Tue 4 May 11:00; Mon 3 May 16:00 was agreed.
Plant: 2 h late. It finishes Wed 5 May 08:00; Tue 4 May 14:00 was agreed.
Lamps: 1 h late. It was finished Tue 4 May 09:00; Mon 3 May 16:00 was agreed.
Arch: 30 m late. It was finished Tue 4 May 12:30; Tue 4 May 12:00 was agreed.
> Plant finishes Wed 5 May 08:00, 2 h after its own date (Tue 4 May 14:00).
Plant is 2 h late: it waited for Dig.
Dig is 3 h late: Dig finished (Tue 4 May 11:00, by Ann).
> Arch finishes Tue 4 May 12:30, 30 m after its own date (Tue 4 May 12:00).
Arch is 30 m late: Arch started (Tue 4 May 08:30, by Ann).
> Lamps finishes Tue 4 May 09:00, 1 h after its own date (Mon 3 May 16:00).
Lamps is 1 h late: Lamps started (Mon 3 May 15:00, by Ann).`},
	{"a sign-off in the way of a rule", "4 12:00", []string{
		"3 08:00 started dig", "3 16:00 finished dig", "4 09:00 failed dig soft", "4 11:00 signed dig",
		"3 16:00 note dig looks fine", "4 08:00 arrived gravel", "4 11:00 started plant", "3 08:00 started path",
		"3 14:00 finished path",
	}, `The hand-over is as agreed in baseline 1: Wed 5 May 11:30, 8 h 30 before the line.
Lamps: 6 h late. It finishes Tue 4 May 14:00; Mon 3 May 16:00 was agreed.
Arch: 4 h late. It finishes Tue 4 May 16:00; Tue 4 May 12:00 was agreed.
Plant: 1 h late. It finishes Tue 4 May 15:00; Tue 4 May 14:00 was agreed.
> Plant finishes Tue 4 May 15:00, 1 h after its own date (Tue 4 May 14:00).
Plant is 1 h late: Dig failed its sign-off: soft (Tue 4 May 09:00, by Ann); Dig signed (Tue 4 May 11:00, by Ann).
> Arch finishes Tue 4 May 16:00, 4 h after its own date (Tue 4 May 12:00).
Arch is 4 h late: it was to begin Tue 4 May 08:00, and nothing says that it has.
> Lamps finishes Tue 4 May 14:00, 6 h after its own date (Mon 3 May 16:00).
Lamps is 6 h late: it needs power, there from Tue 4 May 12:00.`},
	{"the machine", "4 14:00", []string{
		"3 08:00 started path", "4 10:00 finished path", "4 10:00 started arch", "3 08:00 started dig",
		"3 16:00 finished dig", "3 16:00 signed dig", "4 08:00 arrived gravel", "4 10:00 started plant",
	}, `The hand-over is as agreed in baseline 1: Wed 5 May 11:30, 8 h 30 before the line.
Lamps: 8 h late. It finishes Tue 4 May 16:00; Mon 3 May 16:00 was agreed.
Path: 4 h late. It was finished Tue 4 May 10:00; Mon 3 May 14:00 was agreed.
Arch: 2 h late. It finishes Tue 4 May 14:00; Tue 4 May 12:00 was agreed.
> Arch finishes Tue 4 May 14:00, 2 h after its own date (Tue 4 May 12:00).
Arch is 2 h late: it waited for Path.
Path is 4 h late: Path finished (Tue 4 May 10:00, by Ann).
> Lamps finishes Tue 4 May 16:00, 8 h after its own date (Mon 3 May 16:00).
Lamps is 8 h late: it needs power, there from Tue 4 May 14:00.`},
	{"nothing that it shares", "4 14:00", []string{
		"3 08:00 started path", "3 14:00 finished path", "3 08:00 started dig", "4 10:00 finished dig",
		"4 10:00 signed dig", "3 14:00 started lamps", "3 16:00 finished lamps", "4 11:00 started arch",
	}, `The hand-over slips 4 h from baseline 1: Wed 5 May 15:30, 4 h 30 before the line. Wed 5 May 11:30 was agreed.
Plant: 4 h late. It finishes Wed 5 May 10:00; Tue 4 May 14:00 was agreed.
Lay: 4 h late. It finishes Wed 5 May 15:30; Wed 5 May 11:30 was agreed.
Arch: 3 h late. It finishes Tue 4 May 15:00; Tue 4 May 12:00 was agreed.
Dig: 2 h late. It was finished Tue 4 May 10:00; Mon 3 May 16:00 was agreed.
Gravel: 6 h late. It is expected Tue 4 May 14:00; Tue 4 May 08:00 was agreed.
Lay is 4 h late: it uses turf, to be unloaded by Wed 5 May 12:30.
The lorry with turf will be unloaded 4 h late: it waits for the gate, taken until Wed 5 May 12:00 by the lorry with gravel.
The lorry with gravel is 6 h late: it was to come Tue 4 May 08:00, and nothing says that it has.
> Plant finishes Wed 5 May 10:00, 4 h after its own date (Tue 4 May 14:00).
Plant is 4 h late: it was to begin Tue 4 May 10:00, and nothing says that it has.
> Arch finishes Tue 4 May 15:00, 3 h after its own date (Tue 4 May 12:00).
Arch is 3 h late: it waited for Dig.
Dig is 2 h late: Dig finished (Tue 4 May 10:00, by Ann).
> Lay finishes Wed 5 May 15:30, 3 h 30 after its own date (Wed 5 May 12:00).
Lay is 4 h late: it uses turf, to be unloaded by Wed 5 May 12:30.
The lorry with turf will be unloaded 4 h late: it waits for the gate, taken until Wed 5 May 12:00 by the lorry with gravel.
The lorry with gravel is 6 h late: it was to come Tue 4 May 08:00, and nothing says that it has.
> The lorry with gravel is sent away: its unloading doesn't begin before the gate shuts Tue 4 May 16:00, but Wed 5 May 10:00, 18 h later.
The lorry with gravel is 6 h late: it was to come Tue 4 May 08:00, and nothing says that it has.`},
	{"the lorry unloaded late", "4 10:00", []string{
		"3 08:00 started dig", "3 16:00 finished dig", "3 16:00 signed dig", "4 08:00 started plant",
		"4 09:30 arrived gravel", "3 08:00 started path", "3 14:00 finished path", "3 14:00 started lamps",
		"3 16:00 finished lamps",
	}, `The hand-over is as agreed in baseline 1: Wed 5 May 11:30, 8 h 30 before the line.
Arch: 2 h late. It finishes Tue 4 May 14:00; Tue 4 May 12:00 was agreed.
Gravel: 1 h 30 late. It came Tue 4 May 09:30; Tue 4 May 08:00 was agreed.
1 sooner, 0 added
> Arch finishes Tue 4 May 14:00, 2 h after its own date (Tue 4 May 12:00).
Arch is 2 h late: it was to begin Tue 4 May 08:00, and nothing says that it has.`},
	{"the way in", "5 14:00", []string{
		"3 08:00 started dig", "3 16:00 finished dig", "3 16:00 signed dig", "3 08:00 started path",
		"3 14:00 finished path", "4 08:00 arrived gravel", "4 08:00 started arch", "4 12:00 finished arch",
		"5 08:00 arrived turf", "4 10:00 started plant", "5 11:00 finished plant", "5 11:00 started lay",
	}, `The hand-over slips 4 h 30 from baseline 1: Wed 5 May 16:00, 4 h before the line. Wed 5 May 11:30 was agreed.
Lamps: 16 h late. It finishes Wed 5 May 16:00; Mon 3 May 16:00 was agreed.
Plant: 5 h late. It was finished Wed 5 May 11:00; Tue 4 May 14:00 was agreed.
Lay: 2 h 30 late. It finishes Wed 5 May 14:00; Wed 5 May 11:30 was agreed.
Lamps is 16 h late: it needs power, there from Wed 5 May 14:00.
> Plant finishes Wed 5 May 11:00, 5 h after its own date (Tue 4 May 14:00).
Plant is 5 h late: Plant finished (Wed 5 May 11:00, by Ann).
> Lay finishes Wed 5 May 14:00, 2 h after its own date (Wed 5 May 12:00).
Lay is 2 h 30 late: it waited for Plant.
Plant is 5 h late: Plant finished (Wed 5 May 11:00, by Ann).
> Lamps finishes Wed 5 May 16:00, 16 h after its own date (Mon 3 May 16:00).
Lamps is 16 h late: it needs power, there from Wed 5 May 14:00.`},
	{"hands at other work", "4 09:00", []string{
		"3 08:00 started dig", "3 08:00 started path", "3 14:00 finished path", "3 14:00 started lamps",
		"3 16:00 finished lamps",
	}, `The hand-over is as agreed in baseline 1: Wed 5 May 11:30, 8 h 30 before the line.
Dig: 1 h late. It finishes Tue 4 May 09:00; Mon 3 May 16:00 was agreed.
Arch: 1 h late. It finishes Tue 4 May 13:00; Tue 4 May 12:00 was agreed.
Gravel: 1 h late. It is expected Tue 4 May 09:00; Tue 4 May 08:00 was agreed.
> Arch finishes Tue 4 May 13:00, 1 h after its own date (Tue 4 May 12:00).
Arch is 1 h late: it was to begin Tue 4 May 08:00, and nothing says that it has.`},
	{"wet for dry work alone", "4 15:00", []string{
		"3 08:00 started dig", "3 16:00 finished dig", "3 16:00 signed dig", "4 08:00 started arch", "4 13:00 wet",
		"3 15:00 wet", "4 08:00 arrived gravel", "4 08:00 people masons 1", "4 08:00 people diggers 1",
		"4 10:00 started plant",
	}, `The hand-over slips 5 h 30 from baseline 1: Thu 6 May 09:00, 3 h before the line. Wed 5 May 11:30 was agreed.
Path: 15 h late. It finishes Wed 5 May 13:00; Mon 3 May 14:00 was agreed.
Lamps: 15 h late. It finishes Wed 5 May 15:00; Mon 3 May 16:00 was agreed.
Arch: 13 h late. It finishes Thu 6 May 09:00; Tue 4 May 12:00 was agreed.
Plant: 1 h late. It finishes Tue 4 May 15:00; Tue 4 May 14:00 was agreed.
Arch is 13 h late: Diggers: 1 turned up on Tue 4 May (Tue 4 May 08:00, by Ann); Wet on Tue 4 May (Tue 4 May 13:00, by Ann).
> Plant finishes Tue 4 May 15:00, 1 h after its own date (Tue 4 May 14:00).
Plant is 1 h late: Plant started (Tue 4 May 10:00, by Ann).
> Arch finishes Thu 6 May 09:00, 13 h after its own date (Tue 4 May 12:00).
Arch is 13 h late: Diggers: 1 turned up on Tue 4 May (Tue 4 May 08:00, by Ann); Wet on Tue 4 May (Tue 4 May 13:00, by Ann).
> Lamps finishes Wed 5 May 15:00, 15 h after its own date (Mon 3 May 16:00).
Lamps is 15 h late: it waits for Path, to be finished by Wed 5 May 13:00.
Path is 15 h late: it was to begin Mon 3 May 08:00, and nothing says that it has; Masons: 1 turned up on Tue 4 May (Tue 4 May 08:00, by Ann).`},
	{"no power yet", "3 15:00", []string{
		"3 08:00 started dig", "3 08:00 started path", "3 14:00 finished path",
	}, `The hand-over is as agreed in baseline 1: Wed 5 May 11:30, 8 h 30 before the line.
Lamps: 1 h late. It finishes Tue 4 May 09:00; Mon 3 May 16:00 was agreed.
> Lamps finishes Tue 4 May 09:00, 1 h after its own date (Mon 3 May 16:00).
Lamps is 1 h late: it needs power, there from Mon 3 May 15:00.`},
	{"power came late", "4 12:00", []string{
		"3 08:00 started dig", "3 16:00 finished dig", "3 16:00 signed dig", "3 08:00 started path",
		"3 14:00 finished path", "4 11:00 given power", "4 11:00 started lamps",
	}, `The hand-over slips 2 h from baseline 1: Wed 5 May 13:30, 6 h 30 before the line. Wed 5 May 11:30 was agreed.
Lamps: 5 h late. It finishes Tue 4 May 13:00; Mon 3 May 16:00 was agreed.
Arch: 4 h late. It finishes Tue 4 May 16:00; Tue 4 May 12:00 was agreed.
Plant: 2 h late. It finishes Tue 4 May 16:00; Tue 4 May 14:00 was agreed.
Lay: 2 h late. It finishes Wed 5 May 13:30; Wed 5 May 11:30 was agreed.
Gravel: 4 h late. It is expected Tue 4 May 12:00; Tue 4 May 08:00 was agreed.
Lay is 2 h late: it uses turf, to be unloaded by Wed 5 May 10:30.
The lorry with turf will be unloaded 2 h late: it waits for the gate, taken until Wed 5 May 10:00 by the lorry with gravel.
The lorry with gravel is 4 h late: it was to come Tue 4 May 08:00, and nothing says that it has.
> Plant finishes Tue 4 May 16:00, 2 h after its own date (Tue 4 May 14:00).
Plant is 2 h late: it was to begin Tue 4 May 10:00, and nothing says that it has.
> Arch finishes Tue 4 May 16:00, 4 h after its own date (Tue 4 May 12:00).
Arch is 4 h late: it was to begin Tue 4 May 08:00, and nothing says that it has.
> Lay finishes Wed 5 May 13:30, 1 h 30 after its own date (Wed 5 May 12:00).
Lay is 2 h late: it uses turf, to be unloaded by Wed 5 May 10:30.
The lorry with turf will be unloaded 2 h late: it waits for the gate, taken until Wed 5 May 10:00 by the lorry with gravel.
The lorry with gravel is 4 h late: it was to come Tue 4 May 08:00, and nothing says that it has.
> Lamps finishes Tue 4 May 13:00, 5 h after its own date (Mon 3 May 16:00).
Lamps is 5 h late: Lamps started (Tue 4 May 11:00, by Ann).
> The lorry with gravel is sent away: its unloading doesn't begin before the gate shuts Tue 4 May 16:00, but Wed 5 May 08:00, 16 h later.
The lorry with gravel is 4 h late: it was to come Tue 4 May 08:00, and nothing says that it has.`},
	{"the lorry is put off", "4 08:00", []string{
		"3 08:00 started dig", "3 16:00 finished dig", "3 16:00 signed dig", "4 07:30 rebooked gravel",
		"3 08:00 started path", "3 14:00 finished path",
	}, `The hand-over slips 2 h from baseline 1: Wed 5 May 13:30, 6 h 30 before the line. Wed 5 May 11:30 was agreed.
Lamps: 2 h late. It finishes Tue 4 May 10:00; Mon 3 May 16:00 was agreed.
Lay: 2 h late. It finishes Wed 5 May 13:30; Wed 5 May 11:30 was agreed.
Gravel: 23 h 30 late. It is expected Wed 5 May 07:30; Tue 4 May 08:00 was agreed.
Lay is 2 h late: it uses gravel, to be unloaded by Wed 5 May 10:30.
The lorry with gravel is 23 h 30 late: Gravel booked for Wed 5 May 07:30 (Tue 4 May 07:30, by Ann).
> Lay finishes Wed 5 May 13:30, 1 h 30 after its own date (Wed 5 May 12:00).
Lay is 2 h late: it uses gravel, to be unloaded by Wed 5 May 10:30.
The lorry with gravel is 23 h 30 late: Gravel booked for Wed 5 May 07:30 (Tue 4 May 07:30, by Ann).
> Lamps finishes Tue 4 May 10:00, 2 h after its own date (Mon 3 May 16:00).
Lamps is 2 h late: it needs power, there from Tue 4 May 08:00.`},
	{"its machine was ours until before the line", "11 09:00", []string{
		"3 08:00 started dig",
	}, `The hand-over slips 39 h 30 from baseline 1: Wed 12 May 11:00, 31 h after the line. Wed 5 May 11:30 was agreed.
Lamps: 49 h late. It finishes Wed 12 May 09:00; Mon 3 May 16:00 was agreed.
Path: 49 h late. It finishes Tue 11 May 15:00; Mon 3 May 14:00 was agreed.
Arch: 47 h late. It finishes Wed 12 May 11:00; Tue 4 May 12:00 was agreed.
Dig: 41 h late. It finishes Tue 11 May 09:00; Mon 3 May 16:00 was agreed.
Plant: 39 h late. It finishes Tue 11 May 13:00; Tue 4 May 14:00 was agreed.
Lay: 39 h late. It finishes Wed 12 May 10:30; Wed 5 May 11:30 was agreed.
Gravel: 7 d 1 h late. It is expected Tue 11 May 09:00; Tue 4 May 08:00 was agreed.
Turf: 6 d 1 h late. It is expected Tue 11 May 09:00; Wed 5 May 08:00 was agreed.
Arch is 47 h late: it was to begin Tue 4 May 08:00, and nothing says that it has.
> Plant finishes Tue 11 May 13:00, 39 h after its own date (Tue 4 May 14:00).
Plant is 39 h late: it waits for Dig, to be finished by Tue 11 May 09:00 (rule "groundworks before planting").
Dig is 41 h late: Dig started (Mon 3 May 08:00, by Ann).
> Arch finishes Wed 12 May 11:00, 47 h after its own date (Tue 4 May 12:00).
Arch is 47 h late: it was to begin Tue 4 May 08:00, and nothing says that it has.
> Lay finishes Wed 12 May 10:30, 38 h 30 after its own date (Wed 5 May 12:00).
Lay is 39 h late: it uses gravel, to be unloaded by Tue 11 May 15:30.
The lorry with gravel is 7 d 1 h late: it was to come Tue 4 May 08:00, and nothing says that it has.
> Lamps finishes Wed 12 May 09:00, 49 h after its own date (Mon 3 May 16:00).
Lamps is 49 h late: it waits for Path, to be finished by Tue 11 May 15:00.
Path is 49 h late: it was to begin Mon 3 May 08:00, and nothing says that it has.
> Lay will be done Wed 12 May 10:30, 5 d 20 h 30 past the keep of turf (30 h).
Lay is 39 h late: it uses gravel, to be unloaded by Tue 11 May 15:30.
The lorry with gravel is 7 d 1 h late: it was to come Tue 4 May 08:00, and nothing says that it has.`},
	{"sooner than agreed", "3 13:00", []string{
		"3 08:00 started dig", "3 12:00 finished dig", "3 12:00 signed dig", "3 08:00 started path",
		"3 13:00 finished path",
	}, `The hand-over is as agreed in baseline 1: Wed 5 May 11:30, 8 h 30 before the line.
2 sooner, 0 added`},
	{"power has just come", "4 11:00", []string{
		"3 08:00 started dig", "3 16:00 finished dig", "3 16:00 signed dig", "3 08:00 started path",
		"3 14:00 finished path", "4 08:00 arrived gravel", "4 08:00 started arch", "4 10:00 started plant",
		"4 11:00 given power",
	}, `The hand-over is as agreed in baseline 1: Wed 5 May 11:30, 8 h 30 before the line.
Lamps: 5 h late. It finishes Tue 4 May 13:00; Mon 3 May 16:00 was agreed.
> Lamps finishes Tue 4 May 13:00, 5 h after its own date (Mon 3 May 16:00).
Lamps is 5 h late: Power is there (Tue 4 May 11:00, by Ann).`},
	{"few hands on the last day", "5 09:00", []string{
		"3 08:00 started dig", "3 16:00 finished dig", "3 16:00 signed dig", "3 08:00 started path",
		"3 14:00 finished path", "3 14:00 started lamps", "3 16:00 finished lamps", "4 08:00 arrived gravel",
		"4 10:00 started plant", "4 14:00 finished plant", "4 14:00 started arch", "5 08:00 people diggers 1",
		"5 08:00 arrived turf", "5 08:30 started lay",
	}, `The hand-over is as agreed in baseline 1: Wed 5 May 11:30, 8 h 30 before the line.
Arch: 6 h late. It finishes Wed 5 May 10:00; Tue 4 May 12:00 was agreed.
> Arch finishes Wed 5 May 10:00, 6 h after its own date (Tue 4 May 12:00).
Arch is 6 h late: Diggers: 1 turned up on Wed 5 May (Wed 5 May 08:00, by Ann).`},
	{"wet before the day begins", "4 07:30", []string{
		"3 08:00 started dig", "3 16:00 finished dig", "3 16:00 signed dig", "3 08:00 started path",
		"3 14:00 finished path", "3 14:00 started lamps", "3 16:00 finished lamps", "4 07:30 wet",
	}, `The hand-over slips 30 m from baseline 1: Wed 5 May 12:00, 8 h before the line. Wed 5 May 11:30 was agreed.
Arch: 8 h late. It finishes Wed 5 May 12:00; Tue 4 May 12:00 was agreed.
Arch is 8 h late: Wet on Tue 4 May (Tue 4 May 07:30, by Ann).
> Arch finishes Wed 5 May 12:00, 8 h after its own date (Tue 4 May 12:00).
Arch is 8 h late: Wet on Tue 4 May (Tue 4 May 07:30, by Ann).`},
	{"late work, and after it work whose machine is made up", "11 09:00", []string{
		"3 08:00 started lamps",
	}, `The hand-over slips 44 h 30 from baseline 1: Wed 12 May 16:00, 36 h after the line. Wed 5 May 11:30 was agreed.
Dig: 49 h late. It finishes Wed 12 May 09:00; Mon 3 May 16:00 was agreed.
Path: 49 h late. It finishes Tue 11 May 15:00; Mon 3 May 14:00 was agreed.
Arch: 49 h late. It finishes Wed 12 May 13:00; Tue 4 May 12:00 was agreed.
Plant: 47 h late. It finishes Wed 12 May 13:00; Tue 4 May 14:00 was agreed.
Lay: 44 h 30 late. It finishes Wed 12 May 16:00; Wed 5 May 11:30 was agreed.
Lamps: 41 h late. It finishes Tue 11 May 09:00; Mon 3 May 16:00 was agreed.
Gravel: 7 d 1 h late. It is expected Tue 11 May 09:00; Tue 4 May 08:00 was agreed.
Turf: 6 d 1 h late. It is expected Tue 11 May 09:00; Wed 5 May 08:00 was agreed.
Lay is 44 h 30 late: it waits for Plant, to be finished by Wed 12 May 13:00 (it closes the way in to Rear).
Plant is 47 h late: it waits for Dig, to be finished by Wed 12 May 09:00 (rule "groundworks before planting").
Dig is 49 h late: it was to begin Mon 3 May 08:00, and nothing says that it has.
> Plant finishes Wed 12 May 13:00, 47 h after its own date (Tue 4 May 14:00).
Plant is 47 h late: it waits for Dig, to be finished by Wed 12 May 09:00 (rule "groundworks before planting").
Dig is 49 h late: it was to begin Mon 3 May 08:00, and nothing says that it has.
> Arch finishes Wed 12 May 13:00, 49 h after its own date (Tue 4 May 12:00).
Arch is 49 h late: it was to begin Tue 4 May 08:00, and nothing says that it has.
> Lay finishes Wed 12 May 16:00, 44 h after its own date (Wed 5 May 12:00).
Lay is 44 h 30 late: it waits for Plant, to be finished by Wed 12 May 13:00 (it closes the way in to Rear).
Plant is 47 h late: it waits for Dig, to be finished by Wed 12 May 09:00 (rule "groundworks before planting").
Dig is 49 h late: it was to begin Mon 3 May 08:00, and nothing says that it has.
> Lamps finishes Tue 11 May 09:00, 41 h after its own date (Mon 3 May 16:00).
Lamps is 41 h late: Lamps started (Mon 3 May 08:00, by Ann).
> Lay will be done Wed 12 May 16:00, 6 d 2 h past the keep of turf (30 h).
Lay is 44 h 30 late: it waits for Plant, to be finished by Wed 12 May 13:00 (it closes the way in to Rear).
Plant is 47 h late: it waits for Dig, to be finished by Wed 12 May 09:00 (rule "groundworks before planting").
Dig is 49 h late: it was to begin Mon 3 May 08:00, and nothing says that it has.`},
}
