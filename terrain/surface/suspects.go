package surface

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// mostForSets is the number of heights up to which several at once are tried
// as mis-booked; more carry their own check. A default of ours.
const mostForSets = 200

// screen lists the heights whose removal lets a plane, else a curve, pass:
// each alone first, then the set that a robust fit gives no weight.
func (f *fitting) screen() {
	models := []struct {
		kind Kind
		l    *linear
		// least is the fewest heights to be left after removal.
		least int
	}{{PlaneKind, f.plane, planeTerms + 1}, {CurvedKind, f.curved, leastForCurved}}
	for _, sets := range []bool{false, true} {
		for _, m := range models {
			if m.l == nil {
				continue
			}
			found := f.alone(m.l, m.kind, m.least)
			if sets {
				found = f.together(m.l, m.kind, m.least)
			}
			if len(found) > 0 {
				f.fit.Suspects = found
				return
			}
		}
	}
}

// alone lists every height without which the model passes, smallest
// chi-squared first. Leaving height i out of a least-squares fit lowers its
// chi-squared by the square of the normalised residual, so nothing is refitted.
func (f *fitting) alone(l *linear, kind Kind, least int) []Suspect {
	n := len(f.at)
	if n-1 < least {
		return nil
	}
	limit := chiLimit(l.df - 1)
	type candidate struct {
		index int
		chi2  float64
	}
	var found []candidate
	for i := range n {
		w := l.normalised(i)
		if rest := l.chi2 - w*w; l.left(i) > 0 && rest <= limit {
			found = append(found, candidate{i, rest})
		}
	}
	slices.SortStableFunc(found, func(a, b candidate) int { return cmp.Compare(a.chi2, b.chi2) })
	var out []Suspect
	for _, c := range found {
		out = append(out, f.suspect(c.index, l.leftOut(c.index), l.leftOutError(c.index), fmt.Sprintf(
			"stands %s the %s that the other heights fit within their errors", aside(l.leftOut(c.index)), shape(kind))))
	}
	return out
}

// together lists the heights that a robust fit gives no weight, if they are at
// most floor((n - 4)/3) and the model passes without them.
func (f *fitting) together(l *linear, kind Kind, least int) []Suspect {
	n := len(f.at)
	if n > mostForSets {
		return nil
	}
	weight, ok := f.tukey(l.terms)
	if !ok {
		return nil
	}
	var set []int
	for i, w := range weight {
		if w == 0 {
			set = append(set, i)
		}
	}
	if len(set) < 2 || len(set) > (n-4)/3 || n-len(set) < least {
		return nil
	}
	rest, ok := f.without(set, l.terms)
	if !ok || rest.chi2 > chiLimit(rest.df) {
		return nil
	}
	var out []Suspect
	for _, i := range set {
		z, _ := rest.HeightAt(f.plotPoint(i))
		off := f.base + f.z[i] - z
		at := f.plotPoint(i)
		sigma := math.Sqrt(rest.HeightCovariance(at, at) + f.sigma[i]*f.sigma[i])
		out = append(out, f.suspect(i, off, sigma, fmt.Sprintf(
			"is one of %d that stand off the %s of the others, this one %s it", len(set), shape(kind), aside(off))))
	}
	return out
}

// flagLinear flags single heights on a plane or curve that passes: by the
// w-test where a precision was stated, else by the externally studentised
// residual where the height also misses the others by twice the assumed error.
// Limits are shared out over the heights (Bonferroni, 5 % in all).
func (f *fitting) flagLinear(l *linear) {
	n := float64(len(f.at))
	normal := distuv.UnitNormal.Quantile(1 - flagAt/(2*n))
	student := math.Inf(1)
	if l.df > 1 {
		student = distuv.StudentsT{Sigma: 1, Nu: float64(l.df - 1)}.Quantile(1 - flagAt/(2*n))
	}
	for i := range f.at {
		off := l.leftOut(i)
		flagged := math.Abs(l.normalised(i)) > normal
		if !f.stated {
			flagged = math.Abs(l.studentised(i)) > student && math.Abs(off) > 2*f.sigma[i]
		}
		if flagged {
			f.fit.Suspects = append(f.fit.Suspects, f.suspect(i, off, l.leftOutError(i), fmt.Sprintf(
				"stands %s the ground fitted to the other heights, more than chance allows", aside(off))))
		}
	}
}

// readAgain ends what is said of a suspect.
const readAgain = "; read it again"

// suspect words a finding: what is the rest of a sentence about the height, off
// how far it lies above what the others say, with its standard error, m.
func (f *fitting) suspect(i int, off, sigma float64, what string) Suspect {
	end := ": it may be mis-booked"
	if len(f.at) < enoughForSmooth || f.fit.Uneven {
		end = ": it is mis-booked, or the ground is uneven there"
	}
	return Suspect{Name: f.names[i], Index: i, Off: off, sigma: sigma, Reason: called(f.names[i], i) + " " + what + end + readAgain}
}

// leftOutError is the standard error of a leave-one-out residual of a plane or
// curve: it is to the residual as 1 to the normalised one.
func (l *linear) leftOutError(i int) float64 { return math.Abs(l.leftOut(i) / l.normalised(i)) }

// aside puts a residual in words.
func aside(r float64) string {
	if r < 0 {
		return fmt.Sprintf("%.0f mm below", -1000*r)
	}
	return fmt.Sprintf("%.0f mm above", 1000*r)
}

func shape(k Kind) string {
	if k == PlaneKind {
		return "plane"
	}
	return "curve"
}
