// Package keys is the table of the keys of plan, what-if and price files: what each
// means, its unit, how its value is written, an example. The reader takes what it
// accepts from here, and so do the help on keys and the schemas for editors; a key
// that isn't here can't be read.
package keys

import "strings"

// Object is a mapping whose keys are fixed.
type Object struct {
	Of    string // what the mapping describes: "a task"
	Keys  []Key
	OneOf []string // of these keys exactly one is there
	AnyOf []string // of these keys at least one is there

	names []string
}

// Key is a key of an object.
type Key struct {
	Name     string
	Required bool
	Means    string // what it says, with its unit where the value's form doesn't tell it
	Example  string // a value that reads, as YAML
	Value    Value
	With     []string // keys that must be there with it
	Brings   []string // keys that must be there when it is true
}

// Names are the keys, in the order of the table. The caller mustn't change them.
func (o *Object) Names() []string { return o.names }

// Find is a key by its name; nil when there is none.
func (o *Object) Find(name string) *Key {
	for i := range o.Keys {
		if o.Keys[i].Name == name {
			return &o.Keys[i]
		}
	}
	return nil
}

// object makes an object of its keys.
func object(of string, keys ...Key) *Object {
	o := &Object{Of: of, Keys: keys}
	for _, k := range keys {
		o.names = append(o.names, k.Name)
	}
	return o
}

// required is a key that must be there.
func required(k Key) Key {
	k.Required = true
	return k
}

// Path is a key and the way to it, from the top of a file.
type Path struct {
	*Key
	Above []*Key  // the keys above it, from the top
	In    *Object // to which it belongs
}

// String is the way to the key in words joined by points: "tasks.hold_point.takes".
func (p Path) String() string {
	names := make([]string, 0, len(p.Above)+1)
	for _, k := range p.Above {
		names = append(names, k.Name)
	}
	return strings.Join(append(names, p.Name), ".")
}

// Paths are all keys of a file, each behind the one above it, in the order of the
// table.
func Paths(top *Object) []Path { return pathsIn(top, nil) }

func pathsIn(o *Object, above []*Key) []Path {
	var out []Path
	for i := range o.Keys {
		k := &o.Keys[i]
		out = append(out, Path{k, above, o})
		for _, inner := range k.Value.Objects() {
			out = append(out, pathsIn(inner, append(above[:len(above):len(above)], k))...)
		}
	}
	return out
}
