package takeoff

import (
	"errors"
	"fmt"
	"math"

	"crossfall/geodata"
)

// BedInput is one bed to be counted, as it will be built.
type BedInput struct {
	Name          string
	Length, Width float64          // plan, outside of the boards, m
	Volume        geodata.Estimate // compost as laid, m3
	Density       geodata.Estimate // of the compost as carried, kg/m3; zero: moist screened compost
	// BoardUphill and BoardDownhill are the heights bought for the two long
	// sides, mm; 0: no board on that side. A height over the highest board on
	// sale is built of courses.
	BoardUphill, BoardDownhill float64
	// CoursesUphill and CoursesDownhill are the boards that those sides are built
	// of, bottom first, mm; empty where the count is to choose them.
	CoursesUphill, CoursesDownhill []float64
	Thickness                      float64 // of the boards, mm
	// CrossBoards counts every board inside the frame: those across the bed,
	// and the BaysAcross - 1 that run along it between stepped bays.
	CrossBoards           int
	BaysAcross, BaysAlong int     // level bays; 0 means 1
	Pegs                  int     // of the whole bed, those of cross boards included
	PegLength             float64 // whole peg, point included, mm
	PegSize               float64 // side of a square peg, mm
	// PegsAlong are the places of the pegs of a long side, m from its left end:
	// sides longer than the boards on sale are joined there. Nil: they are not.
	PegsAlong []float64
	// BoardLife and PegLife are in years; zero: not known.
	BoardLife, PegLife geodata.Estimate
	FallGradient       float64 // steepest fall of the ground under the bed, m per m
	// Cardboard and Cover are how many sheets lie under the compost and how many
	// layers of woven cover over it; 0 of cardboard means 1.
	Cardboard, Cover int
	// Way is how steeply the way rises by which compost is carried to the bed, m
	// per m; nil where it is not known, and then FallGradient stands for it.
	Way *float64
}

// Count makes the buying list of all beds. prices gives, where said, the
// boards on sale, the kerf, prices and the barrow; defaults stand for the rest
// and are named among the lines, together with what the buyer should know.
// The error wraps ErrTooLong when a piece is longer than every board on sale,
// ErrTooHigh when a side needs too many courses, and ErrBed when a bed's
// figures make no sense. No beds make a list of zeros.
func Count(beds []BedInput, prices geodata.Site) (List, []string, error) {
	list := List{Boards: []BoardLine{}, Pegs: []PegLine{}}
	var said lines
	var faults []error
	for _, b := range beds {
		faults = append(faults, check(b))
	}
	if err := errors.Join(faults...); err != nil {
		return list, nil, err
	}
	countCompost(&list, &said, beds, prices)
	countCardboard(&list, &said, beds)
	countCover(&list, &said, beds)
	beds = withJoints(beds, offerOf(prices, nil), &said)
	countPegs(&list, beds, offerOf(prices, nil).kerf)
	countScrews(&list, &said, beds, offerOf(prices, nil).heights)
	if err := countBoards(&list, &said, beds, prices); err != nil {
		return list, said, err
	}
	countRenewals(&list, &said, beds, prices)
	list.Cost = costOf(list, &said, prices)
	return list, said, nil
}

// lines are the assumptions and warnings of one count, in the order met.
type lines []string

func (l *lines) add(format string, args ...any) { *l = append(*l, fmt.Sprintf(format, args...)) }

// ErrBed is wrapped when a bed's figures make no sense.
var ErrBed = errors.New("figures of a bed make no sense")

// longestBed and highestBed, m and mm, are far past any bed: they keep slips
// of the unit (mm for m) from being counted.
const (
	longestBed = 100.0
	highestBed = 5000.0
)

// check is nil for a bed that can be counted.
func check(b BedInput) error {
	bad := ""
	within := func(v, low, high float64, what string) {
		if !(v >= low && v <= high) && bad == "" {
			bad = fmt.Sprintf("%s of %g", what, v)
		}
	}
	within(b.Length, 0.1, longestBed, "length")
	within(b.Width, 0.1, longestBed, "width")
	for _, v := range []float64{b.Volume.Value, b.Volume.Low, b.Volume.High} {
		within(v, 0, longestBed*longestBed, "compost volume")
	}
	within(b.BoardUphill, 0, highestBed, "board height")
	within(b.BoardDownhill, 0, highestBed, "board height")
	within(b.PegLength, 0, highestBed, "peg length")
	within(b.PegSize, 0, highestBed, "peg size")
	within(b.FallGradient, 0, 10, "fall")
	if b.Way != nil {
		within(*b.Way, 0, 10, "rise of the way")
	}
	if b.BoardUphill > 0 || b.BoardDownhill > 0 {
		within(b.Thickness, 1, 250*min(b.Length, b.Width), "board thickness")
	}
	const many = 10000
	for _, n := range []int{b.CrossBoards, b.BaysAcross, b.BaysAlong, b.Pegs, b.Cardboard, b.Cover} {
		within(float64(n), 0, many, "count")
	}
	if bad == "" {
		return nil
	}
	return fmt.Errorf("%s: %s: %w", b.Name, bad, ErrBed)
}

// value is what was said, or the default.
func value(given *float64, byDefault float64) float64 {
	if given != nil && *given >= 0 && !math.IsInf(*given, 1) {
		return *given
	}
	return byDefault
}
