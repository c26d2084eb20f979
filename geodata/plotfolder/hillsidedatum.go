package plotfolder

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"crossfall/geodata"
)

// difference is by how much the ground around lies above a height of the plot, m,
// with the weight that the height's precision gives it.
type difference struct{ off, weight float64 }

// bringToPlot brings a hillside to the plot's datum by the weighted median
// difference at the plot's heights, or says why that cannot be done. The weight
// of a height is one over the variance of the difference, in which the ground
// model has its own part. The standard error of a median is 1.2533 times that of
// a mean, and 1.4826 times the median departure stands for the standard deviation
// (normal distribution); of unequal weights the effective number is the square of
// their sum over the sum of their squares.
func bringToPlot(p *geodata.Plot, h *geodata.Hillside) string {
	var off []difference
	for _, s := range p.Spots {
		if z := between(h.Origin, h.Cell, h.Cell, h.Cols, h.Rows, h.Z, s.At); !math.IsNaN(z) {
			off = append(off, difference{z - s.Height, 1 / (s.Sigma*s.Sigma + gridSigma*gridSigma)})
		}
	}
	if len(off) < fewestOverlap {
		return fmt.Sprintf("only %d heights of the plot lie on the ground model, and %d are needed to bring it to their level", len(off), fewestOverlap)
	}
	h.Overlap, h.Shift = len(off), weightedMedian(off)
	departures := make([]difference, len(off))
	var sum, squares float64
	for i, o := range off {
		departures[i] = difference{math.Abs(o.off - h.Shift), o.weight}
		h.Worst = math.Max(h.Worst, departures[i].off)
		sum, squares = sum+o.weight, squares+o.weight*o.weight
	}
	typical := weightedMedian(departures)
	if typical > mostDisagree {
		return fmt.Sprintf("its shape does not agree with the plot's heights: half of them depart by more than %.2f m from the median difference", typical)
	}
	h.ShiftError = 1.2533 * 1.4826 * typical / math.Sqrt(sum*sum/squares)
	for i := range h.Z {
		h.Z[i] -= h.Shift
	}
	return ""
}

// weightedMedian is the least value at which the weights so far reach half of
// all.
func weightedMedian(v []difference) float64 {
	v = slices.Clone(v)
	slices.SortFunc(v, func(a, b difference) int { return cmp.Compare(a.off, b.off) })
	half := 0.0
	for _, d := range v {
		half += d.weight / 2
	}
	run := 0.0
	for _, d := range v {
		run += d.weight
		if run >= half*(1-1e-12) {
			return d.off
		}
	}
	return v[len(v)-1].off
}
