// Package layout finds places for beds: inside the boundary, clear of all that
// must be kept clear of, and a path's width apart.
//
// Survey weighs every place of a lattice in several directions; Arrange chooses
// among them. Layouts in rows of one direction are searched exactly, by dynamic
// programming. Where another layout may be better, two zones with rows of their
// own and single beds in any direction are tried too. What no layout of the
// places can exceed is worked out beside it, so that each result says how good
// it is. The same input always gives the same beds. Lengths are plan metres.
package layout

import (
	"errors"
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/bed"
	"crossfall/terrain"

	"github.com/paulmach/orb"
)

// Ground is what the search needs to know of the ground. It is asked from several
// goroutines at once.
type Ground interface {
	// GradientAt is the gradient of the ground; ok is false where there is none.
	GradientAt(p orb.Point) (g terrain.Gradient, ok bool)
	// Extrapolated is true where the heights are too far off, or too few.
	Extrapolated(p orb.Point) bool
}

// Weigh gives the marks of a bed at a place, more being better, and ok false
// where it must not be built. It is called from several goroutines at once.
type Weigh func(bed.Bed) (marks float64, ok bool)

// FullMarks are those of a place with nothing against it.
const FullMarks = 100.0

// Wish is what the beds are to be like, beside those that are pinned.
type Wish struct {
	Length, Width float64 // m, over 0; Length is the long side and not the shorter
	Path          float64 // m between beds, side by side and end to end, 0 or more
	RowMin        int     // least number of beds in a row; 0 and 1: any
	Columns       bool    // the beds of all rows stand in columns too
	// Pairs lets rows stand in pairs, only PairPath apart and with Path on both
	// sides of the pair.
	Pairs    bool
	PairPath float64 // m, not over Path
}

// demands are the wishes about rows.
func (w Wish) demands() demands {
	return demands{rowMin: w.RowMin, columns: w.Columns, pairs: w.Pairs, pairPath: w.PairPath}
}

// free is true when beds need not stand in rows.
func (w Wish) free() bool { return w.RowMin <= 1 && !w.Columns && !w.Pairs }

// Keepout is ground on which no bed may lie.
type Keepout struct {
	Why   string       // as a sentence names it, such as: the hedge "North"
	Shape orb.Geometry // local metres
	Clear float64      // m kept round it; at 0 a bed may touch it but not overlap it
}

// Defaults of ours for Options.
const (
	DefaultStep       = 0.5
	DefaultRowCost    = 3.0
	DefaultNeatGain   = 0.05
	DefaultDirections = 36
)

// Options steer the search. The zero value takes the defaults.
type Options struct {
	// Step is the spacing of places along a row, m; 0: DefaultStep. Rows are
	// tried at half of it. Where that makes more than MaxPlaces places fewer
	// directions are tried and then places further apart; Result.Step says so.
	Step float64
	// Margin is kept between a bed and the boundary, m; 0: Wish.Path.
	Margin float64
	// RowCost is taken off for every row: one more line to set out and keep;
	// 0: DefaultRowCost.
	RowCost float64
	// NeatGain is by what part of its score another layout must be better than one
	// in rows of one direction to be taken; 0: DefaultNeatGain.
	NeatGain float64
	// Directions is the greatest number tried; 0: DefaultDirections.
	Directions int
}

// MaxPlaces is the number of places, of all directions, above which fewer are
// tried, and LeastStep the closest, m: no bed is set out by tape to less.
const (
	MaxPlaces = 60_000
	LeastStep = 0.05
)

// settled fills in the defaults.
func (o Options) settled(w Wish) Options {
	if o.Step == 0 {
		o.Step = DefaultStep
	}
	if o.Margin == 0 {
		o.Margin = w.Path
	}
	if o.RowCost == 0 {
		o.RowCost = DefaultRowCost
	}
	if o.NeatGain == 0 {
		o.NeatGain = DefaultNeatGain
	}
	if o.Directions == 0 {
		o.Directions = DefaultDirections
	}
	return o
}

func check(plot *geodata.Plot, ground Ground, w Wish, keep []Keepout, o Options) error {
	positive := func(v float64) bool { return v > 0 && !math.IsInf(v, 1) }
	notUnder0 := func(v float64) bool { return v >= 0 && !math.IsInf(v, 1) }
	switch {
	case plot == nil || len(plot.Boundary) == 0 || len(plot.Boundary[0]) < 4:
		return errors.New("the plot has no boundary")
	case ground == nil:
		return errors.New("no ground is given")
	case !positive(w.Length) || !positive(w.Width) || w.Length < w.Width:
		return fmt.Errorf("a bed of %v by %v m: give a length and a width over 0, the length the longer", w.Length, w.Width)
	case !notUnder0(w.Path):
		return fmt.Errorf("paths of %v m: give 0 or more", w.Path)
	case w.RowMin < 0:
		return fmt.Errorf("rows of at least %d beds: give 0 or more", w.RowMin)
	case w.Pairs && !(notUnder0(w.PairPath) && w.PairPath <= w.Path):
		return fmt.Errorf("a path of %v m between the rows of a pair: give 0 to %v m", w.PairPath, w.Path)
	case !positive(o.Step) || o.Step < LeastStep:
		return fmt.Errorf("places %v m apart: give %v m or more", o.Step, LeastStep)
	case !notUnder0(o.Margin) || !notUnder0(o.RowCost) || !notUnder0(o.NeatGain) || o.Directions < 0:
		return errors.New("an option is under 0 or not a number")
	}
	return checkShapes(plot, keep)
}
