package surface

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"crossfall/geodata"
)

// Limits of the choice between surfaces, defaults of ours.
const (
	passAt = 0.99 // level of the chi-squared tests
	// leastForCurved is the fewest heights for a curved surface (6 terms and 2
	// to test it by), leastForSmooth those for a smooth one, and
	// enoughForSmooth those under which a smooth one is not trusted at a place.
	leastForCurved  = 8
	leastForSmooth  = 6
	enoughForSmooth = 12
	// noiseSoughtFrom is the number of heights from which their noise is
	// estimated, not under what is stated.
	noiseSoughtFrom = 60
	// fewHeights is the number under which hyperparameters are known only
	// roughly.
	fewHeights = 30
	// mostLeftOut is the root mean square of standardised leave-one-out
	// residuals over which a smooth surface is not trusted.
	mostLeftOut = 1.5
)

// FitSpots fits the ground to spot heights, the simplest surface that lies on
// them within their errors:
//
//  1. a plane, if its chi-squared passes at 99 %;
//  2. else, with 8 heights or more, a curved surface if it passes;
//  3. else, with 6 or more, a smooth surface, its intervals from Student's t on
//     max(n - 6, 3) degrees of freedom, after heights have been sought that
//     alone keep a plane or a curve from passing;
//  4. else the plane, with its error from the scatter of the heights.
//
// The order and limits are a default of ours. The test comes first because the
// stated error of a plane that fails it says nothing about the gradient at one
// place. Every height stays in the fit; those that look wrong are named in
// Suspects. A smooth surface of 12 to 120 heights is compared with a thin plate,
// and Notes say so where they part.
//
// Heights are metres; more than 2000 are merged into blocks for a smooth
// surface. Errors: ErrTooFewHeights, ErrHeightsInLine, or an error naming the
// height that is not finite.
func FitSpots(spots []geodata.SpotHeight, opt Options) (*Fit, error) {
	s, err := newSurvey(spots, opt)
	if err != nil {
		return nil, fmt.Errorf("fit ground: %w", err)
	}
	f := &fitting{survey: s, fit: &Fit{Sigma: s.tau}, hyper: opt.hyper}
	if err := f.choose(opt.Force); err != nil {
		return nil, fmt.Errorf("fit ground: %w", err)
	}
	f.nameSlips()
	return f.fit, nil
}

// fitting is a fit under way.
type fitting struct {
	*survey
	fit    *Fit
	plane  *linear
	curved *linear // nil where it cannot be fitted
	hyper  *Hyper  // given for a smooth surface; nil to seek them
}

func (f *fitting) choose(force Kind) error {
	var ok bool
	if f.plane, ok = fitLinear(f.survey, planeTerms, nil); !ok {
		return ErrHeightsInLine
	}
	planePasses := f.test(PlaneKind, f.plane)
	f.generalFall(planePasses)
	switch force {
	case PlaneKind:
		f.takePlane(planePasses, "a plane, as asked for")
		return nil
	case CurvedKind:
		return f.forceCurved()
	case SmoothKind:
		if len(f.at) < leastForSmooth {
			return fmt.Errorf("%w: %d given, a smooth surface needs %d", ErrTooFewHeights, len(f.at), leastForSmooth)
		}
		return f.takeSmooth("a smooth surface, as asked for")
	case "":
		f.simplest(planePasses)
		return nil
	}
	return fmt.Errorf("no surface is called %q; there are %q, %q and %q", force, PlaneKind, CurvedKind, SmoothKind)
}

// simplest takes the simplest surface that passes.
func (f *fitting) simplest(planePasses bool) {
	n := len(f.at)
	if n == planeTerms {
		f.takePlane(true, "three heights make a plane and leave nothing to test it by")
		return
	}
	if planePasses {
		f.takePlane(true, "a plane fits within your reading error")
		return
	}
	if n >= leastForCurved {
		if f.curved, _ = fitLinear(f.survey, quadraticTerms, nil); f.curved != nil && f.test(CurvedKind, f.curved) {
			f.takeCurved(true, "the ground curves: a plane does not fit within your reading error, a simple curve does")
			return
		}
	}
	f.screen()
	if n < leastForSmooth {
		f.takePlane(false, "a plane does not fit within your reading error, and there are too few heights for anything else")
		return
	}
	tried := "neither a plane nor a simple curve fits within your reading error"
	if f.curved == nil {
		tried = "a plane does not fit within your reading error"
	}
	if f.takeSmooth("uneven ground: "+tried+", so the surface bends between the heights") != nil {
		f.takePlane(false, "uneven ground: no surface could be fitted to the heights, so only their general fall is given")
	}
}

// test adds the chi-squared test of a model; it passes where nothing is left
// to test.
func (f *fitting) test(kind Kind, l *linear) bool {
	if l.df == 0 {
		return true
	}
	t := Test{Model: kind, Statistic: l.chi2, DegreesOfFreedom: l.df, Limit: chiLimit(l.df)}
	t.Passes = t.Statistic <= t.Limit
	f.fit.Tests = append(f.fit.Tests, t)
	return t.Passes
}

// chiLimit is the 99 % point of chi-squared; infinite on no degrees of freedom.
func chiLimit(df int) float64 {
	if df <= 0 {
		return math.Inf(1)
	}
	return distuv.ChiSquared{K: float64(df)}.Quantile(passAt)
}

// normal95 and student95 are the multipliers of a two-sided 95 % interval.
func normal95() float64 { return distuv.UnitNormal.Quantile(0.975) }
func student95(df float64) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: df}.Quantile(0.975)
}

// smoothFreedom is the degrees of freedom of a smooth surface's intervals: n
// less its three terms of slope and its hyperparameters, at least 3. A default
// of ours.
func smoothFreedom(n int) float64 { return float64(max(n-6, 3)) }

// generalFall is the least-squares plane for Fit.Plane.
func (f *fitting) generalFall(passes bool) {
	p := &Plane{Quantile: normal95(), Passes: passes}
	l := *f.plane
	if !passes {
		l.useScatter()
		p.Quantile = student95(float64(l.df))
	}
	p.Gradient, _ = l.GradientAt(f.origin)
	p.Covariance = l.GradientCovariance(f.origin)
	f.fit.Plane = p
}

func (f *fitting) takePlane(passes bool, why string) { f.takeLinear(PlaneKind, f.plane, passes, why) }

func (f *fitting) takeCurved(passes bool, why string) {
	f.takeLinear(CurvedKind, f.curved, passes, why)
}

// takeLinear makes a plane or curve the answer. One that does not pass tells no
// gradient at a place: its errors come from the scatter about it.
func (f *fitting) takeLinear(kind Kind, l *linear, passes bool, why string) {
	out := f.fit
	out.Surface, out.Kind, out.Why, out.Quantile = l, kind, why, normal95()
	if !passes {
		l.useScatter()
		out.Uneven = true
		if l.df > 0 {
			out.Quantile = student95(float64(l.df))
		}
		out.Notes = append(out.Notes, "The heights scatter about the surface by more than their reading error, so its errors are taken from that scatter.")
	}
	for i := range f.at {
		out.Residuals = append(out.Residuals, l.residual(i))
	}
	out.SpreadOfResiduals = spread(out.Residuals, l.df)
	if passes {
		f.flagLinear(l)
	}
	f.noteUnchecked()
}

// forceCurved fits the curve whatever its test says.
func (f *fitting) forceCurved() error {
	if len(f.at) < leastForCurved {
		return fmt.Errorf("%w: %d given, a curved surface needs %d", ErrTooFewHeights, len(f.at), leastForCurved)
	}
	l, ok := fitLinear(f.survey, quadraticTerms, nil)
	if !ok {
		return fmt.Errorf("%w or on one curve: they do not tell how the ground curves", ErrHeightsInLine)
	}
	f.curved = l
	f.takeCurved(f.test(CurvedKind, l), "a curved surface, as asked for")
	return nil
}

// hyperOf is the hyperparameters given or found, with the bounds of the search.
func (f *fitting) hyperOf(r readings) (Hyper, limits) {
	noiseSought := len(r.at) >= noiseSoughtFrom
	if f.hyper != nil {
		return *f.hyper, limitsOf(r, newExtent(r.at), noiseSought)
	}
	return findHyper(r, f.plane.variance(), noiseSought)
}

// takeSmooth makes a smooth surface the answer.
func (f *fitting) takeSmooth(why string) error {
	all := f.survey.readings()
	r := all.blocks(mostReadings)
	h, bounds := f.hyperOf(r)
	m, err := newSmooth(f.survey, r, h)
	if err != nil {
		return err
	}
	out := f.fit
	out.Surface, out.Smooth, out.Kind, out.Why = m, m, SmoothKind, why
	out.Quantile = student95(smoothFreedom(len(f.at)))
	f.smoothResiduals(m, len(r.at) < len(all.at))
	off := m.leftOutSpread()
	out.Uneven = len(f.at) < enoughForSmooth || bounds.atLow(h) || off > mostLeftOut
	m.Widening = widening(len(f.at), out.Uneven)
	f.flagSmooth(m, len(r.at) < len(all.at))
	f.noteSmooth(m, bounds, off)
	f.secondOpinion(m)
	return nil
}
