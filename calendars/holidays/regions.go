package holidays

import (
	"github.com/rickar/cal/v2"
	"github.com/rickar/cal/v2/au"
	"github.com/rickar/cal/v2/ca"
	"github.com/rickar/cal/v2/de"
	"github.com/rickar/cal/v2/fr"
	"github.com/rickar/cal/v2/gb"
	"github.com/rickar/cal/v2/ie"
	"github.com/rickar/cal/v2/jp"
	"github.com/rickar/cal/v2/nl"
	"github.com/rickar/cal/v2/nz"
	"github.com/rickar/cal/v2/us"
)

// region is one row of the table of regions.
type region struct {
	code, name string
	base       []*cal.Holiday // the library's holidays; none: all its days are corrections
	source     string         // of the days that have no correction
	given      string         // what the region calls a further day for a holiday at a weekend
	listsGiven bool           // its official list names that further day only
	notes      []string
}

const (
	additional = "additional day"
	substitute = "substitute day"
)

const (
	deLaw   = "holiday act of the state"
	euLocal = "A holiday on a Sunday earns no further day."
	gbBank  = "bank holiday list of the UK government, to 2028"
	gbNote  = "At a weekend the official list names only the day given for a holiday; " +
		"here the weekend day closes too. Drop it with holidays_drop if you work."
)

// regions is sorted by code.
var regions = []region{
	{"AU-ACT", "Australian Capital Territory", au.HolidaysACT, "Holidays Act 1958 (ACT)", additional, false, []string{
		"Monday 27 April 2026 was declared in December 2025; a Saturday earns no Monday by the Act itself.",
		"Sets of data differ on whether Sunday 25 April 2027 closes besides the Monday; here the Monday does."}},
	{"AU-NSW", "New South Wales", au.HolidaysNSW, "Public Holidays Act 2010 (NSW), s 4", additional, false, []string{
		"The bank holiday on the first Monday of August closes banks only and is not in the list.",
		"Towns may have a local public holiday by ministerial order."}},
	{"AU-NT", "Northern Territory", au.HolidaysNT, "Public Holidays Act 1981 (NT)", additional, false, []string{
		"Show days are local and not in the list: Alice Springs, Tennant Creek, " +
			"Katherine and Darwin on Fridays of July, Borroloola on one of its own."}},
	{"AU-QLD", "Queensland", au.HolidaysQLD, "Holidays Act 1983 (Qld), schedule", additional, false, []string{
		"Show days are local and not in the list; Brisbane: Wed 12 August 2026, 11 August 2027, 16 August 2028."}},
	{"AU-SA", "South Australia", au.HolidaysSA, "Public Holidays Act 2023 (SA)", additional, false, nil},
	{"AU-TAS", "Tasmania", au.HolidaysTAS, "Statutory Holidays Act 2000 (Tas)", additional, false, []string{
		"Days of one part of the state are not in the list: Royal Hobart Regatta (south, " +
			"second Monday of February), Recreation Day (north, first Monday of November), and the show days.",
		"Easter Tuesday closes parts of the public service only and is not in the list."}},
	{"AU-VIC", "Victoria", au.HolidaysVIC, "Public Holidays Act 1993 (Vic), s 6", additional, false, []string{
		"Councils outside Melbourne may keep another day in place of Melbourne Cup Day.",
		"The Friday before the AFL Grand Final is settled by the year's fixture: 2027 and 2028 are computed."}},
	{"AU-WA", "Western Australia", au.HolidaysWA, "Public and Bank Holidays Act 1972 (WA)", additional, false, []string{
		"A Bill tabled in September 2025 would move holidays from 2028 on: Labour Day to 13 March, WA Day to 13 November, " +
			"King's Birthday to 12 June 2028, and add Easter Saturday (15 April 2028) and a show day. Its passage was not seen.",
		"The King's Birthday is proclaimed each year; some districts keep another day."}},
	{"CA", "Canada", ca.Holidays, "Canada Labour Code, Part III, general holidays", substitute, false, []string{
		"These are the federal general holidays; those of provinces and territories are not known. " +
			"Add yours (Family Day, Saint-Jean-Baptiste, the civic day of August ...) with holidays_add.",
		"Easter Monday is kept by federal offices, not by the Code."}},
	{"DE", "Germany", de.Holidays, "common to the holiday acts of all states", substitute, false, []string{
		"Only the holidays of all states; use the code of the state, such as DE-BE.", euLocal}},
	{"DE-BB", "Brandenburg", de.HolidaysBB, deLaw, substitute, false, []string{euLocal}},
	{"DE-BE", "Berlin", de.HolidaysBE, deLaw, substitute, false, []string{euLocal}},
	{"DE-BW", "Baden-Württemberg", de.HolidaysBW, deLaw, substitute, false, []string{euLocal}},
	{"DE-BY", "Bavaria", de.HolidaysBY, deLaw, substitute, false, []string{
		"Mariä Himmelfahrt (15 August) is a holiday in most, not all, places and is not in the list; " +
			"nor is Augsburg's Friedensfest (8 August).", euLocal}},
	{"DE-HB", "Bremen", de.HolidaysHB, deLaw, substitute, false, []string{euLocal}},
	{"DE-HE", "Hesse", de.HolidaysHE, deLaw, substitute, false, []string{euLocal}},
	{"DE-HH", "Hamburg", de.HolidaysHH, deLaw, substitute, false, []string{euLocal}},
	{"DE-MV", "Mecklenburg-Western Pomerania", de.HolidaysMV, deLaw, substitute, false, []string{euLocal}},
	{"DE-NI", "Lower Saxony", de.HolidaysNI, deLaw, substitute, false, []string{euLocal}},
	{"DE-NW", "North Rhine-Westphalia", de.HolidaysNW, deLaw, substitute, false, []string{euLocal}},
	{"DE-RP", "Rhineland-Palatinate", de.HolidaysRP, deLaw, substitute, false, []string{euLocal}},
	{"DE-SH", "Schleswig-Holstein", de.HolidaysSH, deLaw, substitute, false, []string{euLocal}},
	{"DE-SL", "Saarland", de.HolidaysSL, deLaw, substitute, false, []string{euLocal}},
	{"DE-SN", "Saxony", de.HolidaysSN, deLaw, substitute, false, []string{
		"Fronleichnam is a holiday in some places and is not in the list.", euLocal}},
	{"DE-ST", "Saxony-Anhalt", de.HolidaysST, deLaw, substitute, false, []string{euLocal}},
	{"DE-TH", "Thuringia", de.HolidaysTH, deLaw, substitute, false, []string{
		"Fronleichnam is a holiday in some places and is not in the list.", euLocal}},
	{"FR", "France", fr.Holidays, "Code du travail, art. L3133-1", substitute, false, []string{
		"Good Friday and 26 December, holidays in Moselle and Alsace, are not in the list.", euLocal}},
	{"GB-ENG", "England", gb.Holidays, gbBank, substitute, true, []string{gbNote}},
	{"GB-NIR", "Northern Ireland", gb.Holidays, gbBank, substitute, true, []string{gbNote}},
	{"GB-SCT", "Scotland", scotland(), gbBank, substitute, true, []string{gbNote,
		"Towns keep local holidays of their own; they are not in the list."}},
	{"GB-WLS", "Wales", gb.Holidays, gbBank, substitute, true, []string{gbNote}},
	{"IE", "Ireland", ie.Holidays, "Organisation of Working Time Act 1997, sch. 2", substitute, false, []string{
		"A holiday at a weekend earns an employee another day off, not a fixed one; it is not in the list.",
		"Good Friday closes banks, and many sites, but is no public holiday."}},
	{"JP", "Japan", jp.Holidays, "Act on National Holidays 1948", substitute, false, []string{
		"The two equinox days are announced in the February before; 2028 is computed.",
		"Most sites also close from 29 December to 3 January and in mid-August; these are no public holidays."}},
	{"NL", "Netherlands", nl.Holidays, "holiday list of the Dutch government", substitute, false, []string{
		"Good Friday and Liberation Day (5 May) are no days off for most sites and are not in the list; " +
			"5 May is, for many, once in five years (next 2030).",
		"Many sites close for the building holidays of summer; these are no public holidays."}},
	{"NZ", "New Zealand", newZealand(), "Holidays Act 2003, ss 44 to 45A", "transferred day", false, []string{
		"Anniversary days of provinces are not in the list.",
		"By law a holiday at a weekend moves for those who do not work that weekend day; here both days close."}},
	{"SG", "Singapore", nil, "Ministry of Manpower", substitute, false, []string{
		"2026 is the ministry's list. The list for 2027 was not seen: Hari Raya Puasa, Hari Raya Haji, " +
			"Vesak Day and Deepavali are computed and may be a day off. In 2028 Chinese New Year is too.",
		"Outside 2026 to 2028 the holidays of the moon calendars are missing."}},
	{"US", "United States (federal)", us.Holidays, "5 USC 6103", "observed", true, []string{
		"Holidays of states are not in the list.",
		"At a weekend the federal list names only the Friday or Monday given for a holiday; " +
			"here the weekend day closes too. Drop it with holidays_drop if you work."}},
}

// scotland are the holidays of England that Scotland shares, with the first
// Monday of August in place of the last.
func scotland() []*cal.Holiday {
	shared := []*cal.Holiday{gb.SummerHolidayScotland}
	for _, h := range gb.Holidays {
		if h != gb.SummerHoliday && h != gb.EasterMonday {
			shared = append(shared, h)
		}
	}
	return shared
}

// newZealand adds Matariki, which the library has but does not list.
func newZealand() []*cal.Holiday {
	return append([]*cal.Holiday{nz.Matariki}, nz.Holidays...)
}
