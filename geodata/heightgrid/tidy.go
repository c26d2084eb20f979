package heightgrid

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// Heights beyond these are not ground in the open air: the Dead Sea's shore
// lies at about -430 m, the highest mountain's top at about 8850 m. Default of
// ours.
const (
	lowest  = -500.0 // m
	highest = 9000.0 // m
)

// noGround is the size beyond which a number is one of the customary marks of
// a missing height, such as -3.4e38, in whatever unit. Default of ours.
const noGround = 1e30

// ground turns a height of the file into metres; it is NaN when missing.
// outside is true when a plain number was no height of ground.
func ground(z, rise float64) (metres float64, outside bool) {
	metres = z * rise
	switch {
	case metres >= lowest && metres <= highest:
		return metres, false
	case math.IsNaN(z) || math.Abs(z) > noGround:
		return math.NaN(), false
	}
	return math.NaN(), true
}

// tidier turns cells into metres and counts those without a height. It works on
// the cells while they are at hand, for going over a large grid once more costs
// as much as half of its unpacking.
type tidier struct {
	rise             float64 // metres in the file's unit of height
	mark             float64 // number that stands for a missing height; NaN when there is none
	missing, outside int
}

// cells turns some cells into metres.
func (t *tidier) cells(z []float64) {
	for i, v := range z {
		m := v * t.rise
		if !(m >= lowest && m <= highest) { // not a number too
			m = t.height(v)
		}
		z[i] = m
	}
}

// height turns one number into metres.
func (t *tidier) height(v float64) float64 {
	m, outside := ground(v, t.rise)
	if outside && v != t.mark {
		t.outside++
	}
	if m != m { // NaN
		t.missing++
	}
	return m
}

// fill puts one number into all cells.
func fill(z []float64, v float64) {
	for i := range z {
		z[i] = v
	}
}

// tidyPoints turns points into metres and leaves out those without a height.
func (r *Raster) tidyPoints(unit, rise float64) {
	kept, out := r.Points[:0], 0
	for _, p := range r.Points {
		m, outside := ground(p.Height, rise)
		if outside {
			out++
		}
		if m != m { // NaN
			r.Missing++
			continue
		}
		p.At[0], p.At[1], p.Height = p.At[0]*unit, p.At[1]*unit, m
		kept = append(kept, p)
	}
	r.Points = kept
	r.noteOutside(out, "points")
}

func (r *Raster) noteOutside(n int, what string) {
	if n > 0 {
		r.Notes.Add(geodata.Fault{
			Code: "height-out-of-range", Severity: geodata.Warning,
			Message: fmt.Sprintf("%d %s hold a number that is no height of ground (under %g m or over %g m) and were taken as missing", n, what, lowest, highest),
			Want:    "check the unit of the heights and the mark for missing heights",
		})
	}
}
