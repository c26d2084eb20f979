package surface

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// Limits for heights that look wrong on a smooth surface, defaults of ours.
const (
	// standsOut is the standardised leave-one-out residual from which the
	// worst height is looked at again without itself.
	standsOut = 2.5
	// flagAt and unmaskAt are the levels, over all heights, of a flag on the
	// surface as it is and of one on a height picked out and looked at again;
	// the second is the stricter since ground that bends between few heights
	// throws up one that stands out.
	flagAt   = 0.05
	unmaskAt = 0.01
)

// flagSmooth adds heights that miss the smooth ground of the others: the one
// that a gross error may have hidden, with those that then still stand out, or
// else those that stand out on the surface as it is. Blocks of merged heights
// name nobody, and heights already named explain the rest: the others lie on a
// plane or a curve.
func (f *fitting) flagSmooth(m *Smooth, merged bool) {
	if merged || len(f.fit.Suspects) > 0 {
		return
	}
	if worst, off, sigma, others := f.unmasked(m); others != nil {
		f.addOffSmooth(worst, off, sigma)
		for _, i := range others.standingOut() {
			at := i
			if i >= worst { // others has one height less
				at++
			}
			f.addOffSmooth(at, others.LeftOut[i].Residual, others.LeftOut[i].Sigma)
		}
		return
	}
	for _, i := range m.standingOut() {
		f.addOffSmooth(i, m.LeftOut[i].Residual, m.LeftOut[i].Sigma)
	}
}

// outlying is the limit of a standardised leave-one-out residual among n at a
// level shared out over them (Bonferroni): Student's t on the degrees of
// freedom of the smooth surface's intervals, since its hyperparameters come
// from the same heights.
func outlying(n int, level float64) float64 {
	return distuv.StudentsT{Sigma: 1, Nu: smoothFreedom(n)}.Quantile(1 - level/(2*float64(n)))
}

// standingOut lists the readings past that limit, farthest out first.
func (f *Smooth) standingOut() []int {
	limit := outlying(len(f.LeftOut), flagAt)
	z := func(i int) float64 { return math.Abs(f.LeftOut[i].Residual / f.LeftOut[i].Sigma) }
	var out []int
	for i := range f.LeftOut {
		if z(i) > limit {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(z(b), z(a)) })
	return out
}

// addOffSmooth lists a height that misses the smooth ground of the others.
func (f *fitting) addOffSmooth(i int, off, sigma float64) {
	f.fit.Suspects = append(f.fit.Suspects, f.suspect(i, off, sigma, fmt.Sprintf(
		"stands %s the smooth ground fitted to the other heights, more than chance allows", aside(off))))
}

// unmasked looks again at the height that most misses the surface of the
// others, under hyperparameters found without it: a gross error makes all
// ground look rough and so hides itself. It is done only where finding them
// again is quick and where one height does stand out. others is the surface
// without that height, nil when the height is no stranger to it.
func (f *fitting) unmasked(m *Smooth) (worst int, off, sigma float64, others *Smooth) {
	n := len(f.at)
	most := 0.0
	for i, o := range m.LeftOut {
		if z := math.Abs(o.Residual / o.Sigma); z > most {
			worst, most = i, z
		}
	}
	if n < enoughForSmooth || n > coarseHeights || most < standsOut {
		return 0, 0, 0, nil
	}
	rest := f.withoutHeights([]int{worst})
	plane, ok := fitLinear(rest, planeTerms, nil)
	if !ok {
		return 0, 0, 0, nil
	}
	h, _ := findHyper(rest.readings(), plane.variance(), n > noiseSoughtFrom)
	others, err := newSmooth(rest, rest.readings(), h)
	if err != nil {
		return 0, 0, 0, nil
	}
	at := f.plotPoint(worst)
	z, _ := others.HeightAt(at)
	off = f.base + f.z[worst] - z
	v := others.HeightCovariance(at, at) + f.sigma[worst]*f.sigma[worst]
	if !(math.Abs(off) > outlying(n, unmaskAt)*math.Sqrt(v)) {
		return 0, 0, 0, nil
	}
	return worst, off, math.Sqrt(v), others
}
