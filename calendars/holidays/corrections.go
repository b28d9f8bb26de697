package holidays

import (
	"time"

	"build.example/turflast/calendars"
)

// action says what a correction does.
type action uint8

const (
	add    action = iota // the region has this day besides the library's
	drop                 // the library's holiday of this name is none here
	move                 // at a weekend only the day given for it is kept
	alone                // at a weekend no further day is given
	rename               // the official name
	doubt                // the date is not settled
)

// when is a date: of one year, or of each when year is 0; with month 0 the day
// counts from Easter Sunday.
type when struct {
	year  int
	month time.Month
	day   int
}

// correction is one row of the table: what differs from the library.
type correction struct {
	in           string // codes; a country's stands for its parts too
	do           action
	name         string            // added: its name; else the library's name of the holiday
	as           string            // rename: the name here
	on           when              // add: the date
	from         calendars.Minutes // add: the minute from which a part of the day is closed
	given        [7]int8           // add: days to the further day, by weekday from Sunday on
	since, until int               // the years it holds; 0: all
	sundayOnly   bool              // move: a Saturday does not move
	provisional  bool              // add: the date is not settled
	source       string
}

// Further days for a holiday at a weekend, by weekday from Sunday on.
var (
	toMonday     = [7]int8{time.Sunday: 1, time.Saturday: 2}
	sunToMonday  = [7]int8{time.Sunday: 1}
	afterNewYear = [7]int8{time.Sunday: 2, time.Monday: 1, time.Saturday: 2}
)

const (
	pm6 = 18 * calendars.Hour
	pm7 = 19 * calendars.Hour
)

const (
	nswOrder  = "Public Holidays Amendment (Anzac Day) Order 2026 (NSW), reported 15 to 20 February 2026"
	auCourt   = "style of the reign since September 2022"
	auStyle   = "name in the state's own list"
	waBill    = "Public and Bank Holidays Act 1972 (WA); a Bill of September 2025 would move it"
	scotAct   = "Banking and Financial Dealings Act 1971, sch. 1; UK bank holiday list"
	niAct     = "UK bank holiday list for Northern Ireland"
	sgFixed   = "Holidays Act 1998 (Singapore)"
	sg26      = "Ministry of Manpower, list for 2026 of 16 June 2025"
	sgMoon    = "computed: Chinese calendar"
	sgTamil   = "computed: new moon; the ministry's list was not seen"
	sgIslam   = "computed: new moon seen the evening after; the ministry's list was not seen, others have a day earlier"
	clc       = "Canada Labour Code, Part III, general holidays"
	nlList    = "holiday list of the Dutch government"
	usStatute = "name in 5 USC 6103"
)

// corrections are what differs between the library (v2.1.31) and the official
// lists. The tests name the lists, and say which were seen and which derived.
var corrections = []correction{
	// Australia
	{in: "AU", do: rename, name: "ANZAC Day", as: "Anzac Day", source: auStyle},
	{in: "AU", do: rename, name: "Queen's Birthday", as: "King's Birthday", since: 2023, source: auCourt},
	{in: "AU", do: move, name: "Australia Day",
		source: "holiday act of each state and territory: the Monday in place of the weekend day"},
	{in: "AU-ACT", do: move, name: "ANZAC Day", sundayOnly: true, source: "Holidays Act 1958 (ACT), s 3"},
	{in: "AU-NSW", name: "Anzac Day (additional day)", on: when{2026, time.April, 27}, source: nswOrder},
	{in: "AU-NSW", name: "Anzac Day (additional day)", on: when{2027, time.April, 26}, source: nswOrder},
	{in: "AU-NT", do: move, name: "ANZAC Day", sundayOnly: true, source: "Public Holidays Act 1981 (NT)"},
	{in: "AU-NT", do: rename, name: "Labour Day / May Day", as: "May Day", source: auStyle},
	{in: "AU-NT", name: "Easter Sunday", on: when{0, 0, 0}, since: 2024,
		source: "Fair Work Ombudsman, list for 2026; NT since 2024"},
	{in: "AU-NT", name: "Christmas Eve", on: when{0, time.December, 24}, from: pm7, since: 2016,
		source: "Public Holidays Act 1981 (NT), part-day from 19:00"},
	{in: "AU-NT", name: "New Year's Eve", on: when{0, time.December, 31}, from: pm7, since: 2016,
		source: "Public Holidays Act 1981 (NT), part-day from 19:00"},
	{in: "AU-QLD", do: move, name: "ANZAC Day", sundayOnly: true, source: "Holidays Act 1983 (Qld), schedule"},
	{in: "AU-QLD", do: rename, name: "Labour Day / May Day", as: "Labour Day", source: auStyle},
	{in: "AU-QLD", name: "Christmas Eve", on: when{0, time.December, 24}, from: pm6, since: 2019,
		source: "Holidays Act 1983 (Qld), part-day from 18:00"},
	{in: "AU-SA", do: alone, name: "ANZAC Day", since: 2024,
		source: "Public Holidays Act 2023 (SA): no Monday for a Sunday (SA Business Chamber)"},
	{in: "AU-SA", do: rename, name: "March Public Holiday", as: "Adelaide Cup Day", source: auStyle},
	{in: "AU-SA", name: "Easter Sunday", on: when{0, 0, 0}, since: 2024,
		source: "Public Holidays Act 2023 (SA); SafeWork SA"},
	{in: "AU-SA", name: "Christmas Eve", on: when{0, time.December, 24}, from: pm7, since: 2012,
		source: "Public Holidays Act 2023 (SA), part-day from 19:00"},
	{in: "AU-SA", name: "New Year's Eve", on: when{0, time.December, 31}, from: pm7, since: 2012,
		source: "Public Holidays Act 2023 (SA), part-day from 19:00"},
	{in: "AU-TAS", do: move, name: "New Year's Day", source: "Statutory Holidays Act 2000 (Tas)"},
	{in: "AU-TAS", do: move, name: "Boxing Day", source: "Statutory Holidays Act 2000 (Tas)"},
	{in: "AU-VIC", do: rename, name: "Melbourne Cup", as: "Melbourne Cup Day", source: auStyle},
	{in: "AU-VIC", do: doubt, name: "Friday before the AFL Grand Final", since: 2027,
		source: "computed: day before the last Saturday of September; the fixture settles it"},
	{in: "AU-WA", name: "Easter Sunday", on: when{0, 0, 0}, since: 2022,
		source: "Public and Bank Holidays Act 1972 (WA), as amended 2021"},
	{in: "AU-WA", do: doubt, name: "Labour Day", since: 2028, source: waBill},
	{in: "AU-WA", do: doubt, name: "Western Australia Day", since: 2028, source: waBill},
	{in: "AU-WA", do: doubt, name: "King's Birthday", since: 2028, source: waBill},

	// Canada
	{in: "CA", do: drop, name: "Easter Monday", source: clc},
	{in: "CA", do: drop, name: "Civic/Provincial Day", source: clc},

	// Germany
	{in: "DE-BB", name: "Ostersonntag", on: when{0, 0, 0}, source: "Feiertagsgesetz Brandenburg, § 2"},
	{in: "DE-BB", name: "Pfingstsonntag", on: when{0, 0, 49}, source: "Feiertagsgesetz Brandenburg, § 2"},
	{in: "DE-BE", name: "75. Jahrestag des Aufstandes vom 17. Juni 1953", on: when{2028, time.June, 17},
		source: "Berlin, one-off holiday by its holiday act"},
	{in: "DE-MV", name: "Frauentag", on: when{0, time.March, 8}, since: 2023,
		source: "Feiertagsgesetz Mecklenburg-Vorpommern, § 2"},
	{in: "DE", do: rename, name: "Weihnachtstag", as: "Erster Weihnachtsfeiertag", source: "name in the holiday acts"},

	// United Kingdom
	{in: "GB", do: rename, name: "Early May", as: "Early May bank holiday", source: gbBank},
	{in: "GB", do: rename, name: "Spring Bank Holiday", as: "Spring bank holiday", source: gbBank},
	{in: "GB", do: rename, name: "Summer Bank Holiday", as: "Summer bank holiday", source: gbBank},
	{in: "GB-NIR", name: "St Patrick's Day", on: when{0, time.March, 17}, given: toMonday, source: niAct},
	{in: "GB-NIR", name: "Battle of the Boyne", on: when{0, time.July, 12}, given: toMonday, source: niAct},
	{in: "GB-SCT", name: "2nd January", on: when{0, time.January, 2}, given: afterNewYear, source: scotAct},
	{in: "GB-SCT", name: "St Andrew's Day", on: when{0, time.November, 30}, given: toMonday, since: 2007,
		source: "St Andrew's Day Bank Holiday (Scotland) Act 2007"},
	{in: "GB-SCT", name: "World Cup bank holiday", on: when{2026, time.June, 15},
		source: "Royal Proclamation, announced 4 February 2026"},

	// Japan
	{in: "JP", do: rename, name: "National holiday between Respect for the Aged Day and Autumnal Equinox Day",
		as:     "Citizens' Holiday",
		source: "Act on National Holidays 1948, art. 3"},
	{in: "JP", do: doubt, name: "Vernal Equinox Day", since: 2028, source: "computed; announced in the February before"},
	{in: "JP", do: doubt, name: "Autumnal Equinox Day", since: 2028, source: "computed; announced in the February before"},

	// Netherlands
	{in: "NL", do: drop, name: "Goede Vrijdag", source: nlList},
	{in: "NL", do: drop, name: "Bevrijdingsdag", source: nlList},
	{in: "NL", do: move, name: "Koningsdag", source: nlList},
	{in: "NL", name: "Eerste Paasdag", on: when{0, 0, 0}, source: nlList},
	{in: "NL", name: "Eerste Pinksterdag", on: when{0, 0, 49}, source: nlList},

	// New Zealand
	{in: "NZ", do: rename, name: "ANZAC Day", as: "Anzac Day", source: "Holidays Act 2003, s 44"},
	{in: "NZ", do: rename, name: "Queen's Birthday", as: "King's Birthday", since: 2023,
		source: "Holidays Act 2003, s 44"},

	// Singapore: the library has none
	{in: "SG", name: "New Year's Day", on: when{0, time.January, 1}, given: sunToMonday, source: sgFixed},
	{in: "SG", name: "Good Friday", on: when{0, 0, -2}, source: sgFixed},
	{in: "SG", name: "Labour Day", on: when{0, time.May, 1}, given: sunToMonday, source: sgFixed},
	{in: "SG", name: "National Day", on: when{0, time.August, 9}, given: sunToMonday, source: sgFixed},
	{in: "SG", name: "Christmas Day", on: when{0, time.December, 25}, given: sunToMonday, source: sgFixed},
	{in: "SG", name: "Chinese New Year", on: when{2026, time.February, 17}, source: sg26},
	{in: "SG", name: "Chinese New Year", on: when{2026, time.February, 18}, source: sg26},
	{in: "SG", name: "Hari Raya Puasa", on: when{2026, time.March, 21}, source: sg26},
	{in: "SG", name: "Hari Raya Haji", on: when{2026, time.May, 27}, source: sg26},
	{in: "SG", name: "Vesak Day", on: when{2026, time.May, 31}, given: sunToMonday, source: sg26},
	{in: "SG", name: "Deepavali", on: when{2026, time.November, 8}, given: sunToMonday, source: sg26},
	{in: "SG", name: "Chinese New Year", on: when{2027, time.February, 6}, source: sgMoon},
	{in: "SG", name: "Chinese New Year", on: when{2027, time.February, 7}, given: sunToMonday, source: sgMoon},
	{in: "SG", name: "Hari Raya Puasa", on: when{2027, time.March, 10}, provisional: true, source: sgIslam},
	{in: "SG", name: "Hari Raya Haji", on: when{2027, time.May, 17}, provisional: true, source: sgIslam},
	{in: "SG", name: "Vesak Day", on: when{2027, time.May, 20}, provisional: true, source: sgMoon},
	{in: "SG", name: "Deepavali", on: when{2027, time.October, 28}, provisional: true, source: sgTamil},
	{in: "SG", name: "Chinese New Year", on: when{2028, time.January, 26}, provisional: true, source: sgMoon},
	{in: "SG", name: "Chinese New Year", on: when{2028, time.January, 27}, provisional: true, source: sgMoon},
	{in: "SG", name: "Hari Raya Puasa", on: when{2028, time.February, 27}, given: sunToMonday, provisional: true,
		source: sgIslam},
	{in: "SG", name: "Hari Raya Haji", on: when{2028, time.May, 5}, provisional: true, source: sgTamil},
	{in: "SG", name: "Vesak Day", on: when{2028, time.May, 9}, provisional: true, source: sgMoon},
	{in: "SG", name: "Deepavali", on: when{2028, time.October, 17}, provisional: true, source: sgTamil},

	// United States
	{in: "US", do: rename, name: "Martin Luther King Jr. Day", as: "Birthday of Martin Luther King, Jr.",
		source: usStatute},
	{in: "US", do: rename, name: "Presidents' Day", as: "Washington's Birthday", source: usStatute},
	{in: "US", do: rename, name: "Juneteenth", as: "Juneteenth National Independence Day", source: usStatute},
}
