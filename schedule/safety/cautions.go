// Package safety holds the usual cautions for the hazards that a task may name,
// and compares hours of work with published guidance on fatigue. Cautions are
// reminders for a sheet, not a risk assessment: each one defers to local codes
// and licensed practice, and says where to read more.
package safety

import "slices"

// Caution is what people usually watch for, and who publishes more about it.
type Caution struct {
	Hazard  string // as tasks name it
	Title   string
	Text    string // sentences; the last one defers to local codes and licensed practice
	Sources string // where to read on, by publisher and paper
}

// CautionFor is the caution for a hazard; ok is false when the hazard isn't known.
func CautionFor(hazard string) (c Caution, ok bool) {
	i := slices.IndexFunc(all, func(c Caution) bool { return c.Hazard == hazard })
	if i < 0 {
		return Caution{}, false
	}
	return all[i], true
}

// Cautions are the cautions for the hazards named, each once, in the order in which
// a sheet lists them. Unknown hazards have none.
func Cautions(hazards []string) []Caution {
	var out []Caution
	for _, c := range all {
		if slices.Contains(hazards, c.Hazard) {
			out = append(out, c)
		}
	}
	return out
}

// Deference ends every caution.
const Deference = "Follow local codes and licensed practice."

// all is in the order of a sheet: what can kill first. The facts are those of
// the publishers' guidance for small sites, in our words; the papers' numbers
// are from memory, and the figures for two countries differ where given.
var all = []Caution{
	{
		"lifting", "Lifting",
		"Lift to a plan, with rated gear, one signaller and nobody under or beside the load. " +
			"Check the ground and the wind at the hook first; " +
			"stop at the chart's limit, and think again from 9 m/s. " + Deference,
		"Safe Work Australia, cranes; HSE L113; OSHA 1926 subpart CC; US Army Corps EM 385-1-1",
	},
	{
		"height", "Work at height",
		"Work from the ground or a platform with edges if you can; a ladder is for short, light work. " +
			"Tie tools on and keep people out below; falls from 2 m need more than care. " + Deference,
		"Safe Work Australia, falls; HSE INDG401; OSHA 1926.501",
	},
	{
		"excavation", "Digging",
		"See the service plans, locate, and dig by hand near anything buried. " +
			"Support or batter the sides from 1.5 m, keep spoil 1 m back, fence it, and look again after rain. " + Deference,
		"Safe Work Australia, excavation; HSE HSG47; OSHA 1926 subpart P",
	},
	{
		"structures", "Structures under way",
		"Brace everything until it is signed off, and put no load on green concrete or mortar. " +
			"Leave nothing standing overnight that wind could take. " + Deference,
		"Safe Work Australia, construction work; HSE HSG150",
	},
	{
		"vehicles", "Vehicles and people",
		"One way round, walking pace, a banksman for every reversing move and a way of their own for people on foot. " +
			"Keys out when parked; no phone at the wheel. " + Deference,
		"Safe Work Australia, traffic management; HSE HSG144; OSHA 1926.601",
	},
	{
		"electricity", "Electricity",
		"A licensed electrician installs and tests; every tool lead has a residual-current device and a tag. " +
			"Dead before work; joints dry, leads off paths and out of water; look up before any lift. " + Deference,
		"Safe Work Australia, electrical risks; HSE HSG141; OSHA 1926.404",
	},
	{
		"gas", "Gas and fire features",
		"A licensed fitter connects gas, tests for leaks and leaves a certificate before anything is lit. " +
			"Never refill an ethanol burner that is hot or lit: its flame may not be seen. " + Deference,
		"ACCC, ethanol burners; HSE, gas; the local fire service",
	},
	{
		"hot-work", "Hot work",
		"Get the permit, clear or wet 10 m around, take dry mulch and thatch away, keep an extinguisher at hand. " +
			"Watch for an hour after; none on days of total fire ban. " + Deference,
		"Safe Work Australia, welding; HSE HSG140; OSHA 1926.352",
	},
	{
		"water", "Water",
		"Fence or cover any depth of water when nobody watches it, overnight above all. " +
			"Keep hoses off paths, and test pumps and lights with nobody in the water. " + Deference,
		"Safe Work Australia, construction work; HSE HSG150",
	},
	{
		"chemicals", "Cement, dust and coatings",
		"Wet cement burns: gloves, boots, and wash at once. " +
			"Cut stone wet or with extraction, for its dust harms lungs for good. " +
			"Read the sheet of each stain, oil and adhesive before opening it. " + Deference,
		"Safe Work Australia, hazardous chemicals and silica; HSE, COSHH; OSHA 1926.1153",
	},
	{
		"handling", "Handling by hand",
		"Know what a slab, pot or root-ball weighs; trolley, suction lifter or a second person before your back. " +
			"From about 25 kg (16 kg for many) find another way; change hands often. " + Deference,
		"Safe Work Australia, manual tasks; HSE L23; NIOSH, lifting",
	},
	{
		"heat", "Heat and sun",
		"Shade, water every 20 minutes, heavy work early; let new people build up over days. " +
			"Hat, sleeves and sun cream; stop at the site's limit; confusion is an emergency. " + Deference,
		"Safe Work Australia, working in heat; OSHA, heat",
	},
	{
		"noise", "Noise",
		"Take the quieter tool, keep distance, and keep loud work short and inside its hours. " +
			"Protect ears from 85 dB(A) over a day, some rules from 80; take turns. " + Deference,
		"Safe Work Australia, noise; HSE L108; OSHA 1926.52",
	},
}
