package frame

// Class is the edge that a bed gets.
type Class string

// The classes, mildest first.
const (
	OpenEdged   Class = "open-edged"
	Boarded     Class = "boarded"
	SunkenEdges Class = "boarded with sunken edges and pegs"
	Stepped     Class = "stepped"
	DoNotBuild  Class = "do not build here"
)

// Classes lists every class, mildest first.
func Classes() []Class {
	return []Class{OpenEdged, Boarded, SunkenEdges, Stepped, DoNotBuild}
}

// Severity orders the classes: 0 for open-edged up to 4 for do not build here;
// -1 for a word that is no class.
func (c Class) Severity() int {
	for i, k := range Classes() {
		if c == k {
			return i
		}
	}
	return -1
}
