package stormflow

import (
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// MaxCells is the greatest number of cells that a model may have.
const MaxCells = 4_000_000

// ErrSpec is wrapped by every refusal of a Spec or a Storm.
var ErrSpec = errors.New("cannot play the storm")

// EdgeKind is what becomes of water at the rim of the ground.
type EdgeKind uint8

// Kinds of rim.
const (
	// Open lets water leave by the slope that the ground has there, and not come
	// back; where the ground rises outward nothing leaves.
	Open EdgeKind = iota
	// Closed holds everything.
	Closed
)

// Spec is the ground and what is built on it.
type Spec struct {
	Cols, Rows int
	Cell       float64   // side of a cell, m
	Origin     orb.Point // outer south-western corner of the grid
	Ground     []float64 // height of each cell, m, row by row; NaN: not part of the ground
	// Materials is the number of the material on each cell; nil: all 0.
	Materials []uint8
	// Edges says what becomes of water at a stretch of rim with this middle, one
	// cell long, that faces a side; nil: Open everywhere.
	Edges func(middle orb.Point, side Side) EdgeKind
	// EdgeSlope is the outward slope by which water leaves an Open edge; 0: the
	// slope of the ground there, and at least LeastEdgeSlope where it does not
	// rise outward.
	EdgeSlope float64
	// RunOn is the part (0 to 1) of the storm's run-on that enters through a
	// stretch of rim with this middle, where the ground rises outward by the
	// given slope (negative: falls); nil: none.
	RunOn    func(middle orb.Point, rise float64) float64
	Beds     []Bed
	Boards   []Board
	Channels []Channel
	// Lines are counted across: what passes each.
	Lines []Line
}

// LeastEdgeSlope is the least slope by which water leaves a level open edge: a
// default of ours.
const LeastEdgeSlope = 0.001

// Board is a straight board on edge, on or in the ground.
type Board struct {
	Name               string
	From, To           orb.Point
	CrestFrom, CrestTo float64 // height of its top at both ends, m
}

// Bed is a frame of four boards with fill in it. A bed without boards is ground:
// raise Spec.Ground instead.
type Bed struct {
	Name    string
	Corners [4]orb.Point
	Crests  [4]float64 // height of the boards' tops at the corners, m
	// Level is the height of the fill, m; under the ground, the ground stays.
	Level    func(orb.Point) float64
	Material uint8 // of the fill
}

// Sides are the names of a bed's boards: that from corner 0 to 1 first.
func (b Bed) boards() [4]Board {
	var out [4]Board
	for i := range out {
		j := (i + 1) % 4
		out[i] = Board{
			Name: fmt.Sprintf("%s %d", b.Name, i+1), From: b.Corners[i], To: b.Corners[j],
			CrestFrom: b.Crests[i], CrestTo: b.Crests[j],
		}
	}
	return out
}

// Channel is a cut of even depth along a line. It must be at least two cells
// wide: a narrower one has no credible capacity on the grid.
type Channel struct {
	Name         string
	Line         orb.LineString
	Width, Depth float64 // m
	Material     uint8
}

// Line is a line across which passing water is counted.
type Line struct {
	Name     string
	From, To orb.Point
}

// faults are all that is wrong with the spec.
func (s Spec) faults() error {
	var all []error
	add := func(format string, a ...any) {
		all = append(all, fmt.Errorf("%w: "+format, append([]any{ErrSpec}, a...)...))
	}
	if !(s.Cell > 0) || math.IsInf(s.Cell, 1) {
		add("cells of %v m", s.Cell)
	}
	if s.Cols < 1 || s.Rows < 1 || s.Cols > MaxCells || s.Rows > MaxCells || s.Cols*s.Rows > MaxCells {
		add("%d by %d cells: 1 to %d can be played", s.Cols, s.Rows, MaxCells)
		return errors.Join(all...)
	}
	if len(s.Ground) != s.Cols*s.Rows {
		add("%d cells hold %d heights", s.Cols*s.Rows, len(s.Ground))
	}
	if s.Materials != nil && len(s.Materials) != len(s.Ground) {
		add("%d cells hold %d materials", len(s.Ground), len(s.Materials))
	}
	inside := false
	for _, z := range s.Ground {
		inside = inside || !math.IsNaN(z)
		if math.IsInf(z, 0) || math.Abs(z) > 1e5 {
			add("a height of %v m", z)
			break
		}
	}
	if !inside {
		add("no cell has a height")
	}
	if !(s.EdgeSlope >= 0) || math.IsInf(s.EdgeSlope, 1) {
		add("an edge slope of %v", s.EdgeSlope)
	}
	for _, b := range s.Beds {
		if b.Level == nil {
			add("bed %s has no level of fill", b.Name)
		}
		for _, x := range b.boards() {
			x.faults(add)
		}
	}
	for _, b := range s.Boards {
		b.faults(add)
	}
	for _, c := range s.Channels {
		switch {
		case len(c.Line) < 2 || !finite(points(c.Line)...):
			add("channel %s has no line", c.Name)
		case !(c.Depth > 0) || math.IsInf(c.Depth, 1):
			add("channel %s is %v m deep", c.Name, c.Depth)
		case !(c.Width >= 2*s.Cell*(1-1e-9)):
			add("channel %s is %v m wide: under two cells of %v m its capacity cannot be believed", c.Name, c.Width, s.Cell)
		}
	}
	for _, l := range s.Lines {
		if !finite(points([]orb.Point{l.From, l.To})...) {
			add("line %s has no place", l.Name)
		}
	}
	return errors.Join(all...)
}

func (b Board) faults(add func(string, ...any)) {
	if !finite(append(points([]orb.Point{b.From, b.To}), b.CrestFrom, b.CrestTo)...) {
		add("board %s has an end or a top that is not a number", b.Name)
	}
}

func points(l []orb.Point) []float64 {
	var all []float64
	for _, p := range l {
		all = append(all, p[0], p[1])
	}
	return all
}

func finite(all ...float64) bool {
	for _, v := range all {
		if math.IsNaN(v) || math.IsInf(v, 0) || math.Abs(v) > 1e9 {
			return false
		}
	}
	return true
}
