package relief

// Way is one of the eight ways from a node to a neighbour, clockwise from the
// +y axis, or one of the words below.
type Way uint8

// The ways, in the order in which ties between them are settled.
const (
	North Way = iota
	NorthEast
	East
	SouthEast
	South
	SouthWest
	West
	NorthWest
	// Out leads off the known ground.
	Out
	// Nowhere is that of a node without a height, one that is shut in, or
	// one that has no lower neighbour.
	Nowhere
	unseen // not yet reached by a flood
)

// ways is the number of neighbours.
const ways = 8

var (
	wayCols = [ways]int{0, 1, 1, 1, 0, -1, -1, -1}
	wayRows = [ways]int{1, 1, 0, -1, -1, -1, 0, 1}
)

// Step is how many columns and rows a way leads on; 0, 0 for Out and Nowhere.
func (w Way) Step() (cols, rows int) {
	if w >= ways {
		return 0, 0
	}
	return wayCols[w], wayRows[w]
}

// Back is the way back; Out and Nowhere are their own.
func (w Way) Back() Way {
	if w >= ways {
		return w
	}
	return (w + 4) % ways
}

// stepsOf is the differences of node numbers for the ways on a lattice.
func stepsOf(cols int) (steps [ways]int) {
	for w := range steps {
		steps[w] = wayRows[w]*cols + wayCols[w]
	}
	return steps
}
