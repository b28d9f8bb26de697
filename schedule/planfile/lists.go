package planfile

// currencies are the codes of ISO 4217 in use, from memory.
func currencies() []string {
	return []string{
		"AED", "AFN", "ALL", "AMD", "ANG", "AOA", "ARS", "AUD", "AWG", "AZN", "BAM", "BBD", "BDT", "BGN", "BHD", "BIF",
		"BMD", "BND", "BOB", "BRL", "BSD", "BTN", "BWP", "BYN", "BZD", "CAD", "CDF", "CHF", "CLP", "CNY", "COP", "CRC",
		"CUP", "CVE", "CZK", "DJF", "DKK", "DOP", "DZD", "EGP", "ERN", "ETB", "EUR", "FJD", "FKP", "GBP", "GEL", "GHS",
		"GIP", "GMD", "GNF", "GTQ", "GYD", "HKD", "HNL", "HTG", "HUF", "IDR", "ILS", "INR", "IQD", "IRR", "ISK", "JMD",
		"JOD", "JPY", "KES", "KGS", "KHR", "KMF", "KPW", "KRW", "KWD", "KYD", "KZT", "LAK", "LBP", "LKR", "LRD", "LSL",
		"LYD", "MAD", "MDL", "MGA", "MKD", "MMK", "MNT", "MOP", "MRU", "MUR", "MVR", "MWK", "MXN", "MYR", "MZN", "NAD",
		"NGN", "NIO", "NOK", "NPR", "NZD", "OMR", "PAB", "PEN", "PGK", "PHP", "PKR", "PLN", "PYG", "QAR", "RON", "RSD",
		"RUB", "RWF", "SAR", "SBD", "SCR", "SDG", "SEK", "SGD", "SHP", "SLE", "SOS", "SRD", "SSP", "STN", "SVC", "SYP",
		"SZL", "THB", "TJS", "TMT", "TND", "TOP", "TRY", "TTD", "TWD", "TZS", "UAH", "UGX", "USD", "UYU", "UZS", "VES",
		"VND", "VUV", "WST", "XAF", "XCD", "XCG", "XOF", "XPF", "YER", "ZAR", "ZMW", "ZWG",
	}
}

// timezones are the names that a mistyped one is compared with: those of the
// places whose holidays are known, and of the main cities.
func timezones() []string {
	return []string{
		"Europe/London", "Europe/Dublin", "Europe/Paris", "Europe/Berlin", "Europe/Amsterdam", "Europe/Brussels",
		"Europe/Madrid", "Europe/Rome", "Europe/Vienna", "Europe/Zurich", "Europe/Stockholm", "Europe/Copenhagen",
		"Europe/Oslo", "Europe/Helsinki", "Europe/Lisbon", "Europe/Warsaw", "Europe/Prague", "Europe/Athens",
		"Australia/Melbourne", "Australia/Sydney", "Australia/Brisbane", "Australia/Adelaide", "Australia/Darwin",
		"Australia/Perth", "Australia/Hobart", "Pacific/Auckland", "Pacific/Chatham", "America/New_York",
		"America/Chicago", "America/Denver", "America/Phoenix", "America/Los_Angeles", "America/Anchorage",
		"Pacific/Honolulu", "America/Toronto", "America/Vancouver", "America/Winnipeg", "America/Edmonton",
		"America/Halifax", "America/St_Johns", "Asia/Singapore", "Asia/Tokyo", "Asia/Hong_Kong", "Asia/Dubai", "UTC",
	}
}
