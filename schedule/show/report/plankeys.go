package report

import (
	"slices"
	"strings"
	"unicode/utf8"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// keyTables are the files whose keys are told.
var keyTables = []*keys.Object{keys.Plan, keys.WhatIf, keys.Prices}

// PlanKeys lists every key of the plan file, of what-if files and of price lists.
func PlanKeys() *page.Document {
	w := &page.Document{}
	w.Say(wording.AllKeys)
	for _, o := range keyObjects() {
		describe(w, o.object, o.ways, o.object.Keys)
	}
	return w
}

// PlanKey tells of one key, by its name, or by the end of the way to it, as
// hold_point.takes, with the keys under it. Of an unknown one it returns nil, and the
// name of the nearest key, if any is near.
func PlanKey(name string) (doc *page.Document, near string) {
	w := &page.Document{}
	var known []string
	var told []*keys.Object
	for _, o := range keyObjects() {
		var here []keys.Key
		for i := range o.object.Keys {
			k := &o.object.Keys[i]
			known = append(known, k.Name)
			if named(o, k.Name, name) {
				here = append(here, *k)
			}
		}
		if len(here) > 0 {
			describe(w, o.object, o.ways, here)
			told = append(told, here[0].Value.Objects()...)
		}
	}
	if len(w.Blocks) == 0 {
		return nil, schedule.Nearest(name, known)
	}
	for _, o := range keyObjects() {
		if slices.Contains(told, o.object) {
			describe(w, o.object, o.ways, o.object.Keys)
		}
	}
	return w, ""
}

// keyObject is an object and the keys under which it stands.
type keyObject struct {
	object *keys.Object
	ways   []string
}

// keyObjects are all objects of the tables, each once.
func keyObjects() []keyObject {
	var out []keyObject
	for _, top := range keyTables {
		out = append(out, keyObject{object: top})
		for _, p := range keys.Paths(top) {
			for _, o := range p.Value.Objects() {
				i := slices.IndexFunc(out, func(known keyObject) bool { return known.object == o })
				if i < 0 {
					i = len(out)
					out = append(out, keyObject{object: o})
				}
				out[i].ways = append(out[i].ways, p.String())
			}
		}
	}
	return out
}

// named says whether what somebody calls a key of an object is this one.
func named(o keyObject, key, said string) bool {
	if key == said || len(o.ways) == 0 && said == key {
		return true
	}
	return slices.ContainsFunc(o.ways, func(way string) bool {
		return strings.HasSuffix("."+way+"."+key, "."+said)
	})
}

// describe tells of keys of an object.
func describe(w *page.Document, o *keys.Object, ways []string, list []keys.Key) {
	w.Heading(wording.KeysHeading(o, ways))
	w.Say(wording.OneOfKeys(o))
	room := 0
	for i := range list {
		room = max(room, utf8.RuneCountInString(wording.KeyName(&list[i])))
	}
	table := w.Table(2, page.Column{Room: room, Gap: 2}, page.Column{})
	for i := range list {
		k := &list[i]
		table.Row(wording.KeyName(k), wording.KeySays(k))
		table.Note(page.Quiet, wording.KeyExample(k))
	}
}
