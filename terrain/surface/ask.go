package surface

import (
	"errors"
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// errUnknownSurface is for a Surface made by another package.
var errUnknownSurface = errors.New("the surface was not fitted by this package")

// part says what is asked of the ground at a point.
type part int

const (
	heightPart part = iota
	eastPart        // gradient east
	northPart       // gradient north
)

// asked is one figure of the ground at a point, made ready so that its
// covariances with many others cost a product each.
type asked struct {
	at     orb.Point // from the survey's origin
	part   part
	region int // of a surface in pieces
	whitened
}

// asker is a surface whose figures can be asked together.
type asker interface {
	Surface
	ask(p orb.Point, what part) asked
	covariance(a, b asked) float64
	// reading is the variance of one more reading where a was asked, as the
	// fit would weigh it.
	reading(a asked) float64
	heights() []orb.Point // where the heights stand
	// draw is Simulate for nodes that are finite.
	draw(nodes []orb.Point, draws int, seed uint64) (Draws, error)
}

// heights are the places of the survey.
func (s *survey) heights() []orb.Point {
	out := make([]orb.Point, len(s.at))
	for i := range s.at {
		out[i] = s.plotPoint(i)
	}
	return out
}

// askerOf finds the fitted ground inside s.
func askerOf(s Surface) (asker, error) {
	if f, ok := s.(*Fit); ok && f != nil {
		s = f.Surface
	}
	a, ok := s.(asker)
	if !ok {
		return nil, errUnknownSurface
	}
	return a, nil
}

func (l *linear) ask(p orb.Point, what part) asked {
	q := l.survey.local(p)
	a := asked{at: q, part: what}
	east, north := l.slopes(q)
	switch what {
	case heightPart:
		a.k = l.basis(q)
	case eastPart:
		a.k = east
	case northPart:
		a.k = north
	}
	return a
}

func (l *linear) covariance(a, b asked) float64 { return l.factor * l.form(a.k, b.k) }

func (l *linear) reading(asked) float64 { return l.factor * l.survey.tau * l.survey.tau }

func (l *linear) heights() []orb.Point { return l.survey.heights() }

func (f *Smooth) ask(p orb.Point, what part) asked {
	k := make([]float64, len(f.alpha))
	a := asked{at: f.survey.local(p), part: what}
	for i, at := range f.data.at {
		k[i] = f.prior(a, asked{at: at})
	}
	a.whitened = f.whiten(k, trendRow(a))
	return a
}

// trendRow is the row of the trend of what is asked.
func trendRow(a asked) [3]float64 {
	if a.part == heightPart {
		return [3]float64{1, a.at[0], a.at[1]}
	}
	row := [3]float64{}
	row[a.part] = 1
	return row
}

func (f *Smooth) covariance(a, b asked) float64 {
	return f.reduced(f.prior(a, b), a.whitened, b.whitened)
}

func (f *Smooth) reading(asked) float64 { return f.NoiseFactor * f.survey.tau * f.survey.tau }

func (f *Smooth) heights() []orb.Point { return f.survey.heights() }

// prior is the covariance of two figures under the process alone: the kernel,
// its derivative -c (1+u) e^-u d, or minus its second derivative
// c [(1+u) e^-u for equal parts, less (5/Range^2) e^-u d d'], with u = sqrt5 h /
// Range, d the step of length h between the points and c the variance of the
// gradient.
func (f *Smooth) prior(a, b asked) float64 {
	h := planar.Distance(a.at, b.at)
	step := orb.Point{a.at[0] - b.at[0], a.at[1] - b.at[1]}
	switch {
	case a.part == heightPart && b.part == heightPart:
		k, _ := f.kernel(h)
		return k
	case b.part == heightPart:
		return f.kernelSlope(h) * step[a.part-eastPart]
	case a.part == heightPart:
		return -f.kernelSlope(h) * step[b.part-eastPart]
	}
	u := math.Sqrt(5) * h / f.Range
	c := -5 / (f.Range * f.Range) * step[a.part-eastPart] * step[b.part-eastPart]
	if a.part == b.part {
		c += 1 + u
	}
	return f.gradientVariance() * c * math.Exp(-u)
}
