package report

import (
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/wording"
)

// ChanceOf builds a programme many times, as [odds.Better] does. It returns nil where that can't
// be done; a nil ChanceOf stands for a chance that nobody asked for.
type ChanceOf func(network.Case) *odds.Result

// chance is how likely a programme is on time, where it was asked for.
type chance struct {
	Replanned bool       `json:"re_planned" doc:"people re-plan; else the order of hands stays"`
	Builds    int        `json:"builds" doc:"how many were played"`
	OnTime    oddsOnTime `json:"on_time" doc:"builds whose last required work is done by the hand-over"`
}

// Chance adds how likely the programme is on time, beside the margin, and returns r. Ways back to
// every date get theirs as well.
func (r *Report) Chance(of ChanceOf) *Report {
	if r.chanceOf = of; of != nil {
		r.odds = of(r.of)
	}
	return r
}

// Chance adds how likely both programmes are on time, and returns x.
func (x *WhatIf) Chance(of ChanceOf) *WhatIf {
	x.before.Chance(of)
	x.after.Chance(of)
	return x
}

// likely says how likely the programme is on time; empty where nobody asked.
func (r *Report) likely() string {
	switch {
	case r.odds == nil:
		return ""
	case r.odds.Certain():
		return wording.Chance(r.odds)
	}
	return wording.OnTimeHow(r.odds) + "."
}

// likelyBeside is [Report.likely] in a few words, for a column.
func (r *Report) likelyBeside() string {
	switch {
	case r.odds == nil:
		return ""
	case r.odds.Certain():
		return "nothing is uncertain"
	}
	return wording.InHundred(r.odds.OnTime, r.odds.Builds)
}

func (r *Report) chanceObject() *chance {
	if r.odds == nil {
		return nil
	}
	return &chance{r.odds.Replan, r.odds.Builds, onTimeObject(r.odds)}
}

func onTimeObject(o *odds.Result) oddsOnTime { return oddsOnTime{o.OnTime, o.Chance(), o.Low, o.High} }

// Likely says how likely the programme is on time; empty where nobody asked.
func (s *Sheets) Likely(of ChanceOf) string { return s.r.Chance(of).likely() }
