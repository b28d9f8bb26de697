package wording

// What a printed page says of the printing that it belongs to, of its moment, and of whose
// copy it is.
const (
	NotIssued = "Not issued"
	AsPlanned = "As planned, nothing logged"
	LeadCopy  = "Lead's copy"
	HutCopy   = "For the hut wall"
	GateCopy  = "Gate's copy"
	SiteCopy  = "For all crews"
)

// CopyOf says whose copy a page is: a crew's.
func CopyOf(crew string) string { return "Copy for " + crew }

// Stands says of which moment a page is.
func (w *Writer) Stands() string {
	if said := w.AsAt(); said != "" {
		return "As at " + w.Moment(w.plan.Now())
	}
	return AsPlanned
}
