package wording

import "build.example/turflast/schedule/site/sitelog"

// lorryDid says what happened to a delivery, after its name.
func (w *Writer) lorryDid(e *sitelog.Event) string {
	switch e.What {
	case sitelog.Rebooked:
		return "booked for " + w.Moment(e.To)
	case sitelog.Refused:
		return "was refused"
	case sitelog.Unloaded:
		return "unloaded"
	case sitelog.Gone:
		return "loaded and gone"
	case sitelog.Loaded:
		return "loaded"
	case sitelog.Short:
		if e.To != 0 {
			return "came short, the rest comes " + w.Moment(e.To)
		}
		return "came short"
	case sitelog.Ordered:
		return "ordered"
	case sitelog.Confirmed:
		return "confirmed as booked"
	}
	return "came"
}
