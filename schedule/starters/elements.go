package starters

// Published figures of work by hand that comments name, as they stood on the web. They are
// outputs of larger sites, in hours of work alone: a rate of your own is worth more.
const (
	handFactors = "Menlo Academy, New Zealand, table of labour factors"
	pitOutputs  = "Guild of Project Controls, Compendium, outputs by hand"
)

// elements are in the order in which a garden is walked, from the rear to the gate.
var elements = []*Element{
	{Name: "walls", What: "a wall", Unit: "m2", Usual: 12, Most: 200, zone: "rear", parts: walls},
	{Name: "fence", What: "panels or screens", Unit: "m", Usual: 12, Most: 300, zone: "rear", parts: fence},
	{Name: "living-wall", What: "planted panels", Unit: "m2", Usual: 8, Most: 120, zone: "rear", parts: livingWall},
	{Name: "pavilion", What: "a roofed frame", Unit: "m2", Usual: 12, Most: 80, zone: "shelter", parts: pavilion},
	{Name: "roof-garden", What: "planting on a roof", Unit: "m2", Usual: 10, Most: 50, zone: "roof", parts: roofGarden},
	{Name: "pergola", What: "posts and beams", Unit: "m2", Usual: 12, Most: 80, zone: "terrace", parts: pergola},
	{Name: "rill", What: "moving water", Unit: "m", Usual: 6, Most: 60, zone: "water", parts: rill},
	{Name: "pool", What: "still water", Unit: "m2", Usual: 6, Most: 80, zone: "water", parts: pool},
	{Name: "paving", What: "slabs on a bed", Unit: "m2", Usual: 24, Most: 400, zone: "terrace", parts: paving},
	{Name: "deck", What: "boards on a frame", Unit: "m2", Usual: 18, Most: 200, zone: "terrace", parts: deck},
	{Name: "steps", What: "stone treads", Unit: "steps", one: "step", Usual: 4, Most: 40, zone: "terrace", parts: steps},
	{Name: "seating", What: "benches", Unit: "benches", one: "bench",
		Usual: 2, Most: 12, zone: "terrace", parts: seating},
	{Name: "fire", What: "a gas fire bowl", Unit: "bowls", one: "bowl", Usual: 1, Most: 4, zone: "terrace", parts: fire},
	{Name: "trees", What: "root-balled trees", Unit: "trees", one: "tree", Usual: 4, Most: 60, zone: "beds", parts: trees},
	{Name: "hedge", What: "ready-grown hedge", Unit: "m", Usual: 10, Most: 200, zone: "beds", parts: hedge},
	{Name: "planting", What: "beds of pots", Unit: "plants", one: "plant", Usual: 300, Most: 6000, zone: "beds",
		parts: planting},
	{Name: "irrigation", What: "drip lines", Unit: "m", Usual: 60, Most: 1500, zone: "beds", parts: irrigation},
	{Name: "lighting", What: "lights", Unit: "lights", one: "light", Usual: 12, Most: 150, zone: "beds", parts: lighting},
	{Name: "path", What: "gravel between edges", Unit: "m", Usual: 10, Most: 200, zone: "path", parts: path},
	{Name: "turf", What: "a lawn of rolls", Unit: "m2", Usual: 50, Most: 1500, zone: "lawn", parts: turf},
}

// Elements are all that gardens can be composed of, in the order in which plans have them.
func Elements() []*Element { return elements }

// otherNames are words by which people name an element.
var otherNames = map[string]string{
	"pond": "pool", "water": "pool", "stream": "rill", "channel": "rill", "patio": "paving", "terrace": "paving",
	"slabs": "paving", "lawn": "turf", "grass": "turf", "beds": "planting", "plants": "planting", "borders": "planting",
	"wall": "walls", "green-wall": "living-wall", "shelter": "pavilion", "summerhouse": "pavilion", "arbour": "pergola",
	"decking": "deck", "stairs": "steps", "bench": "seating", "benches": "seating", "firepit": "fire", "fire-pit": "fire",
	"tree": "trees", "lights": "lighting", "drip": "irrigation", "watering": "irrigation", "gravel": "path",
	"screens": "fence", "fencing": "fence", "roof": "roof-garden",
}
