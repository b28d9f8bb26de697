package report

import (
	"io"

	"build.example/turflast/schedule/show/shape"
)

// JSON writes the programme as one JSON object. Its keys are the words of the plan file;
// their structs declare what they mean, and [Keys] lists it. The version of an object
// goes up when a key changes its meaning or goes away; new keys may come any time. The
// error is the writer's.
func (r *Report) JSON(out io.Writer) error { return r.write(out, r.programme()) }

// write writes an object in the terms of the plan.
func (r *Report) write(out io.Writer, object any) error { return kinds.Write(out, r.of.Plan, object) }

// each turns the items of a list into objects.
func each[T, O any](list []T, object func(T) O) []O {
	var out []O
	for _, x := range list {
		out = append(out, object(x))
	}
	return out
}

// shapes are all objects that are written as JSON.
var shapes = []shape.Shape{
	checkShape,
	{About: "The programme (plan --json):", Value: programme{}},
	{About: "People and machines by half day (plan --people --json):", Value: people{}},
	{About: "What to book and give back (plan --bookings --json):", Value: bookings{}},
	reviewShape,
	{About: "What it costs (plan --cost --json):", Value: costObject{}},
	{About: "What changes do (whatif --json):", Value: whatIf{}},
	{About: "Several sets of changes (compare --json):", Value: compared{}},
	{About: "The chance of the hand-over (odds --json):", Value: oddsObject{}},
	{About: "One build (odds --show --json):", Value: playObject{}},
	{About: "Sturdier programmes (sturdier --json):", Value: sturdierObject{}},
	{About: "How late things may be (tolerance --json):", Value: toleranceObject{}},
	{About: "What fixes a start, and what makes it tight (why --json):", Value: whyObject{}},
	{About: "Why something can't be had (why --not --json):", Value: whyNotObject{}},
	{About: "Ways back to every date (recover --json):", Value: recoveryObject{}},
	{About: "The least cost of every finish (recover --logic --json):", Value: timeCost{}},
	{About: "The run sheet of a day (today --json):", Value: runSheet{}},
	{About: "The look-ahead (ahead --json):", Value: lookAhead{}},
	{About: "The gate list (gate --json):", Value: gateList{}},
	{About: "Appointments and what others owe (appointments --json):", Value: appointments{}},
	{About: "The orders to place (orders --json):", Value: orderList{}},
	{About: "The desk list (desk --json):", Value: deskList{}},
	{About: "The hand-over list (ready --json):", Value: handoverList{}},
	{About: "The site log (log show --json):", Value: siteLog{}},
	{About: "What a merge of logs did (log merge --json):", Value: merged{}},
	{About: "What was issued (issue list --json):", Value: issues{}},
	{About: "What differs from the last issues (changed --json):", Value: changedObject{}},
	{About: "The baselines of a plan (baseline list --json):", Value: baselines{}},
	{About: "What differs between two baselines (baseline compare --json):", Value: agreed{}},
	{About: "How far the programme is from the baseline (slip --json):", Value: slipObject{}},
	{About: "What finished work took (rates --json):", Value: ratesObject{}},
}

// Keys is the documentation of all that is written as JSON, made from the structs
// themselves: every object with its keys, the type of each, and what it means.
func Keys() string { return conventions + kinds.Doc(shapes) }

const conventions = `What turflast writes as JSON.

Keys are the words of the plan file. Moments are RFC 3339 with the site's offset, null
when there is none; dates are those of the site; minutes are whole; amounts are in the
plan's currency; ids are the plan's. A key with "if any" is left out when it says
nothing. New keys may come any time; the version of an object goes up when one goes
away or changes its meaning.

`
