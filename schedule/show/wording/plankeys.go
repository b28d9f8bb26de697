package wording

import (
	"build.example/turflast/schedule/planfile/keys"
)

// AllKeys begins the list of all keys of a file.
const AllKeys = "Each key with what it says, how it is written and an example. " +
	"Those with a * must be there. Times are those of the site's clock."

// KeysHeading is the title of the keys of an object, with the ways to it.
func KeysHeading(o *keys.Object, ways []string) string {
	if len(ways) == 0 {
		return "Keys of " + o.Of
	}
	return "Keys of " + o.Of + ", under " + list(ways)
}

// KeyName is a key, marked when it must be there.
func KeyName(k *keys.Key) string {
	if k.Required {
		return k.Name + " *"
	}
	return k.Name
}

// KeySays is what a key says, how it is written, and what goes with it.
func KeySays(k *keys.Key) string {
	says := Capital(k.Means) + ". " + Capital(k.Value.Is) + "."
	if len(k.With) > 0 {
		says += " It goes with " + list(k.With) + "."
	}
	if len(k.Brings) > 0 {
		says += " When true, " + list(k.Brings) + " must be there."
	}
	return says
}

// KeyExample is a key with a value as a file has them.
func KeyExample(k *keys.Key) string { return k.Name + ": " + k.Example }

// OneOfKeys says which keys of an object exclude each other; empty when none do.
func OneOfKeys(o *keys.Object) string {
	switch {
	case len(o.OneOf) > 0:
		return "Exactly one of " + list(o.OneOf) + " must be there."
	case len(o.AnyOf) > 0:
		return "At least one of " + list(o.AnyOf) + " must be there."
	}
	return ""
}
