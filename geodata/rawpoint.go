package geodata

// RawPoint is one point as a file of another program gives it, before it is
// brought into the frame of a plot.
type RawPoint struct {
	Name string  // as the file names it; may be empty, may be repeated
	X, Y float64 // metres east and north, or degrees of longitude and latitude
	// Height is metres above whatever the file measures heights from. It means
	// nothing, and is 0, unless HasHeight.
	Height    float64
	HasHeight bool
	Kind      string // what it is in the file's own terms: "waypoint", "line", "surface"
	Source    Pos
}

// RawPoints is what a file of points holds, in reading order.
type RawPoints struct {
	Points []RawPoint
	// EPSG is the code of the coordinate system in the EPSG register; 0 when
	// the file does not say.
	EPSG int
	// Geographic is true when X and Y are degrees of longitude and latitude on
	// WGS84, as the format or the file says; nothing is guessed from numbers.
	Geographic bool
}
