package surface

import (
	"math"

	"github.com/paulmach/orb"
	"gonum.org/v1/gonum/mat"

	"crossfall/terrain"
)

// Pieces is ground cut by break lines: walls, kerbs, banks and terrace edges.
// Each part is a ground of its own, and nothing is shared across a line.
type Pieces struct {
	Parts  []Part // in order of their middles from west to east
	origin orb.Point
	faces  []face // from origin
}

// Part is the ground between break lines.
type Part struct {
	Name    string
	Outline orb.Polygon
	Heights []int // which of the heights given it rests on; those of a bank's edges are in two parts
	// Fit is the part's own; nil where it has under 4 heights or they stand in
	// one line.
	Fit *Fit
	// Leans says that the part has no fit: it takes the general fall of LeansOn,
	// another of Parts, at its own level.
	Leans   bool
	LeansOn int
	ground  asker
}

// PartAt is the part that a point lies in; outside the plot, the nearest.
func (s *Pieces) PartAt(p orb.Point) int {
	return faceAt(s.faces, orb.Point{p[0] - s.origin[0], p[1] - s.origin[1]})
}

func (s *Pieces) at(p orb.Point) asker { return s.Parts[s.PartAt(p)].ground }

// HeightAt is the height of the ground of the part that p lies in.
func (s *Pieces) HeightAt(p orb.Point) (float64, bool) { return s.at(p).HeightAt(p) }

// GradientAt is the gradient of the ground of the part that p lies in.
func (s *Pieces) GradientAt(p orb.Point) (terrain.Gradient, bool) { return s.at(p).GradientAt(p) }

// GradientCovariance is that of the part that p lies in.
func (s *Pieces) GradientCovariance(p orb.Point) [2][2]float64 { return s.at(p).GradientCovariance(p) }

// HeightCovariance is 0 between parts.
func (s *Pieces) HeightCovariance(a, b orb.Point) float64 {
	i, j := s.PartAt(a), s.PartAt(b)
	if i != j {
		return 0
	}
	return s.Parts[i].ground.HeightCovariance(a, b)
}

// Extrapolated is that of the part that p lies in; always true in a part
// without a fit.
func (s *Pieces) Extrapolated(p orb.Point) bool { return s.at(p).Extrapolated(p) }

func (s *Pieces) ask(p orb.Point, what part) asked {
	i := s.PartAt(p)
	a := s.Parts[i].ground.ask(p, what)
	a.region = i
	return a
}

func (s *Pieces) covariance(a, b asked) float64 {
	if a.region != b.region {
		return 0
	}
	return s.Parts[a.region].ground.covariance(a, b)
}

func (s *Pieces) reading(a asked) float64 { return s.Parts[a.region].ground.reading(a) }

func (s *Pieces) heights() (out []orb.Point) {
	for _, p := range s.Parts {
		out = append(out, p.ground.heights()...)
	}
	return out
}

// draw draws each part for itself.
func (s *Pieces) draw(nodes []orb.Point, draws int, seed uint64) (Draws, error) {
	members := make([][]int, len(s.Parts))
	for i, p := range nodes {
		k := s.PartAt(p)
		members[k] = append(members[k], i)
	}
	out := Draws{Heights: make([][]float64, draws)}
	for r := range out.Heights {
		out.Heights[r] = make([]float64, len(nodes))
	}
	for k, is := range members {
		at := make([]orb.Point, len(is))
		for j, i := range is {
			at[j] = nodes[i]
		}
		// The golden ratio in 64 bits keeps the parts' streams apart.
		part, err := s.Parts[k].ground.draw(at, draws, seed+uint64(k)*0x9e3779b97f4a7c15)
		if err != nil {
			return Draws{}, err
		}
		out.Smoothed = math.Max(out.Smoothed, part.Smoothed)
		for r := range out.Heights {
			for j, i := range is {
				out.Heights[r][i] = part.Heights[r][j]
			}
		}
	}
	return out, nil
}

// What is taken for a part with too few heights, defaults of ours.
const (
	// unlikeNeighbour is the standard deviation of each part of the gradient
	// between it and the part it leans on.
	unlikeNeighbour = 0.02
	// unknownLevel is the standard deviation of its level without any height, m.
	unknownLevel = 0.5
)

// leaning is the ground of a part with too few heights: a plane with the
// general fall of another part, at the level of its own heights.
type leaning struct{ *linear }

// Extrapolated is always true.
func (leaning) Extrapolated(orb.Point) bool { return true }

// newLeaning sets a plane through the mean of the heights, or, without any, at
// the level of the ground it leans on, at the middle of the part.
func newLeaning(fall *Plane, at []orb.Point, z, sigma []float64, middle orb.Point, level float64) leaning {
	s := &survey{origin: middle, base: level, scale: 1, tau: DefaultSigma}
	variance := unknownLevel * unknownLevel
	if n := float64(len(at)); n > 0 {
		s.origin, s.base, s.tau, variance = orb.Point{}, 0, median(sigma), 0
		for i, p := range at {
			s.origin[0] += p[0] / n
			s.origin[1] += p[1] / n
			s.base += z[i] / n
			variance += sigma[i] * sigma[i] / (n * n)
		}
		for _, p := range at {
			s.at = append(s.at, s.local(p))
		}
	}
	unlike := unlikeNeighbour * unlikeNeighbour
	return leaning{&linear{
		survey: s, terms: planeTerms, factor: 1,
		b: []float64{0, fall.Gradient.East, fall.Gradient.North},
		inv: symmetric([3][3]float64{
			{math.Max(variance, leastSigma*leastSigma)},
			{0, fall.Covariance[0][0] + unlike, fall.Covariance[0][1]},
			{0, fall.Covariance[0][1], fall.Covariance[1][1] + unlike},
		}),
	}}
}

// symmetric is a 3 by 3 matrix from its lower half.
func symmetric(m [3][3]float64) *mat.SymDense {
	out := mat.NewSymDense(3, nil)
	for i := range 3 {
		for j := range i + 1 {
			out.SetSym(i, j, m[i][j])
		}
	}
	return out
}
