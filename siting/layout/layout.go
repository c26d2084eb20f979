// Package layout finds places for beds: on the contour, inside the boundary,
// clear of everything that must be kept clear of, and a path's width apart.
//
// The search is a plain one: places on a lattice, the best taken first, then a
// set number of exchanges that fit one more bed in or lower the cost. It
// proves nothing about layouts that it has not tried, and the same input
// always gives the same beds. Lengths are plan metres.
package layout

import (
	"context"
	"errors"
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/bed"
	"crossfall/terrain"

	"github.com/paulmach/orb"
)

// Ground is what the search needs to know of the ground.
type Ground interface {
	// GradientAt is the gradient of the ground; ok is false where there is none.
	GradientAt(p orb.Point) (g terrain.Gradient, ok bool)
	// Extrapolated is true where the heights are too far off, or too few.
	Extrapolated(p orb.Point) bool
}

// Wish is the beds to place beside those that are pinned.
type Wish struct {
	Count         int     // 0 or more
	Length, Width float64 // m, over 0; Length is the long side and not the shorter
	Path          float64 // m between beds, side by side and end to end, 0 or more
}

// Keepout is ground on which no bed may lie.
type Keepout struct {
	Why   string       // as a sentence names it, such as: the hedge "North"
	Shape orb.Geometry // local metres
	Clear float64      // m kept round it; at 0 a bed may touch it but not overlap it
}

// Defaults of ours for Options.
const (
	DefaultStep     = 0.5
	DefaultSteps    = 40
	DefaultMaxTurn  = 15 * math.Pi / 180
	DefaultNeatCost = 0.05
)

// Options steer the search. The zero value takes the defaults.
type Options struct {
	// Step is the spacing of the lattice, m; 0: DefaultStep. A plot with more
	// than MaxPlaces places is searched on a wider one, and Result.Step says so.
	Step float64
	// Margin is kept between a bed and the boundary, m; 0: Wish.Path.
	Margin float64
	// Steps is the greatest number of exchanges; 0: DefaultSteps.
	Steps int
	// MaxTurn is how far a bed may be turned off its own contour to stand in
	// line with the others, radians; 0: DefaultMaxTurn.
	MaxTurn float64
	// NeatCost is the part of the cost that beds in line may add, where as
	// many fit; 0: DefaultNeatCost.
	NeatCost float64
}

// MaxPlaces is the number of places over the plot's bound above which the
// lattice is widened, and LeastStep the closest lattice, m: no bed is set out
// by tape to less.
const (
	MaxPlaces = 40_000
	LeastStep = 0.05
)

// Result is where the beds go.
type Result struct {
	Beds []bed.Bed // in the order of their names
	Fits int       // how many of Wish.Count were placed
	// Short says what stops the rest; empty when all fit.
	Short string
	Cost  float64 // sum over Beds
	// InLine is true when all beds share one bearing.
	InLine bool
	Tried  int     // places looked at
	Step   float64 // m, of the lattice used
}

// Search places Wish.Count beds. score gives the cost of a bed at a place, less
// being better, and ok false where it must not be built; a nil score takes the
// nearest to the gate. Costs within 1e-9 count as equal, and then the bed
// nearest to the gate wins, then the western one, then the southern one.
//
// Two layouts are made: each bed on its own contour, and all beds in line on
// the mean contour of the first layout, in rows. The one in which more beds
// fit is taken; of equals the rows, unless they cost more than NeatCost allows.
//
// The error is of input that cannot be searched, or ctx.Err() wrapped. That
// fewer beds fit than were wished is no error.
func Search(ctx context.Context, plot *geodata.Plot, ground Ground, wish Wish, pinned []bed.Bed, keep []Keepout,
	score func(bed.Bed) (cost float64, ok bool), opt Options) (Result, error) {
	opt = opt.settled(wish)
	if err := check(plot, ground, wish, keep, opt); err != nil {
		return Result{}, fmt.Errorf("arrange beds: %w", err)
	}
	if wish.Count == 0 {
		return Result{Step: opt.Step, InLine: true}, nil
	}
	s := newSearch(plot, ground, wish, pinned, keep, score, opt)
	own, err := s.layout(ctx, s.ownLattice())
	if err != nil {
		return Result{}, fmt.Errorf("arrange beds: %w", err)
	}
	rows, err := s.layout(ctx, s.rowLattice(s.commonBearing(own)))
	if err != nil {
		return Result{}, fmt.Errorf("arrange beds: %w", err)
	}
	best, inLine := own, false
	if s.preferRows(rows, own) {
		best, inLine = rows, true
	}
	r := Result{
		Beds: s.named(best), Fits: len(best.chosen), Cost: best.cost(),
		InLine: inLine || len(best.chosen) < 2,
		Tried:  own.tried + rows.tried, Step: s.opt.Step,
	}
	if r.Fits < wish.Count {
		r.Short = s.short(best)
	}
	return r, nil
}

// settled fills in the defaults.
func (o Options) settled(w Wish) Options {
	if o.Step == 0 {
		o.Step = DefaultStep
	}
	if o.Margin == 0 {
		o.Margin = w.Path
	}
	if o.Steps == 0 {
		o.Steps = DefaultSteps
	}
	if o.MaxTurn == 0 {
		o.MaxTurn = DefaultMaxTurn
	}
	if o.NeatCost == 0 {
		o.NeatCost = DefaultNeatCost
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
	case w.Count < 0:
		return fmt.Errorf("%d beds are wished: give 0 or more", w.Count)
	case !positive(w.Length) || !positive(w.Width) || w.Length < w.Width:
		return fmt.Errorf("a bed of %v by %v m: give a length and a width over 0, the length the longer", w.Length, w.Width)
	case !notUnder0(w.Path):
		return fmt.Errorf("paths of %v m: give 0 or more", w.Path)
	case !positive(o.Step) || o.Step < LeastStep:
		return fmt.Errorf("lattice of %v m: give a spacing of %v m or more", o.Step, LeastStep)
	case !notUnder0(o.Margin) || !notUnder0(o.MaxTurn) || !notUnder0(o.NeatCost) || o.Steps < 0:
		return errors.New("an option is under 0 or not a number")
	}
	return checkShapes(plot, keep)
}
