package geodata

import (
	"github.com/paulmach/orb"
)

// SpotHeight is one measured height.
type SpotHeight struct {
	Name   string
	At     orb.Point // metres east and north of the frame's origin
	Height float64   // metres above the survey's datum
	// Sigma is the standard deviation of a repeated reading in metres,
	// including the ground under the staff; 0 when not known.
	Sigma float64
	// PositionError is the standard deviation of the place along either axis,
	// metres; 0 when not known. On a slope it makes an error of the height too.
	PositionError float64

	Note     string
	Side     BreakSide // top or toe of a break line, when so tagged
	Readings int       // how many rows were averaged into this height; at least 1
	Source   Pos
}

// BreakSide says on which side of a break line a height was taken.
type BreakSide uint8

// The sides of a break line.
const (
	NoSide BreakSide = iota
	Top
	Toe
)

// Kind says what a drawn feature is.
type Kind string

// The kinds of feature that plot.geojson and features.csv may hold.
const (
	BoundaryKind  Kind = "boundary"
	NoGoKind      Kind = "no-go"
	ObstacleKind  Kind = "obstacle"
	TreeKind      Kind = "tree"
	ServiceKind   Kind = "service"
	PathKind      Kind = "path"
	GateKind      Kind = "gate"
	HeapKind      Kind = "heap" // compost to be carried, or where it will be tipped
	BreakLineKind Kind = "break-line"
	MarkKind      Kind = "mark"
	BedKind       Kind = "bed"
)

// Kinds lists every kind in the order in which help and messages name them.
func Kinds() []Kind {
	return []Kind{
		BoundaryKind, NoGoKind, ObstacleKind, TreeKind, ServiceKind,
		PathKind, GateKind, HeapKind, BreakLineKind, MarkKind, BedKind,
	}
}

// Carrier is what a service carries.
type Carrier string

// The seven services that every plot is asked about. OtherCarrier stands for
// anything else that may be buried (garden lighting, irrigation, unknown).
const (
	Electricity  Carrier = "electricity"
	Gas          Carrier = "gas"
	WaterPipe    Carrier = "water"
	Telecoms     Carrier = "telecoms"
	Drain        Carrier = "drain"
	Oil          Carrier = "oil"
	OtherCarrier Carrier = "unknown"
)

// Carriers lists the seven services in the order in which they are asked.
func Carriers() []Carrier {
	return []Carrier{Electricity, Gas, WaterPipe, Telecoms, Drain, Oil, OtherCarrier}
}

// Fixture is one drawn feature other than the boundary: an obstacle, a tree, a
// service, a path, a gate, a heap, a break line, a mark, a no-go area or a drawn bed.
// Fields that do not belong to its Kind are zero.
type Fixture struct {
	Kind  Kind
	Name  string
	Shape orb.Geometry // orb.Point, orb.LineString or orb.Polygon, local metres
	// Heights holds z for each position of Shape in reading order, NaN where
	// none was given; nil when no position had one.
	Heights []float64

	What         string  // obstacle: hedge, fence, wall, shed, polytunnel...
	TopHeight    float64 // obstacle, tree: height above ground, m; 0 not said
	StemDiameter float64 // tree: at 1.5 m, m; 0 not said
	Evergreen    bool    // tree

	Carries       Carrier // service
	Overhead      bool    // service
	Located       string  // service: how it was located ("located by ..."); empty: drawn only
	Depth         float64 // service: cover, m; 0 not said
	PositionError float64 // service: one-sided error of the drawn line, m; 0 not said

	Pinned bool // bed: may not be moved

	MapEast, MapNorth float64 // mark: place on the map grid of the hillside, m; 0 not said

	Source Pos
}

// Frame says what the coordinates mean.
type Frame struct {
	// Geographic is true when some input came as longitude and latitude and
	// was projected about Origin; false when all coordinates were local metres.
	Geographic bool
	Origin     orb.Point // longitude, latitude in degrees of the local origin, when Geographic
	// North says what +y is: "the +y axis", "true north", "grid north",
	// "magnetic north".
	North string
	// NorthTurn is the bearing of the +y axis, radians clockwise from North.
	NorthTurn float64
	// EPSG is the code of the map grid that local metres are on; 0 when they are
	// on none.
	EPSG int
	// NorthFromTrue is the bearing of North from true north, radians; nil when it
	// is not known.
	NorthFromTrue *float64
}

// Plot is everything measured and drawn, in one frame.
type Plot struct {
	Name     string
	Frame    Frame
	Boundary orb.Polygon // closed rings, valid, local metres
	// BoundaryDrawn is false when the boundary is the hull of the heights.
	BoundaryDrawn bool
	Spots         []SpotHeight // sorted by x, then y, then height, then name
	Fixtures      []Fixture    // in reading order
	Site          Site         // what the grower wrote in site.toml
	Hillside      *Hillside    // the ground above and around; nil without
	Rain          Rain         // what rain.csv held
	// Notes tells what reading did that a person must know: columns taken,
	// units assumed, readings averaged.
	Notes Faults
}

// OfKind lists the plot's fixtures of one kind, in reading order.
func (p *Plot) OfKind(k Kind) []Fixture {
	var out []Fixture
	for _, f := range p.Fixtures {
		if f.Kind == k {
			out = append(out, f)
		}
	}
	return out
}
