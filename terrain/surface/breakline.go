package surface

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"gonum.org/v1/gonum/mat"

	"crossfall/geodata"
)

// PiecesKind is ground in parts along break lines.
const PiecesKind Kind = "pieces"

// leastForPart is the fewest heights for a fit of a part: a plane and one over.
const leastForPart = 4

// FitPieces fits the ground of a plot in parts, cut along its break lines, each
// part as FitSpots does; smooth parts share their hyperparameters, sought
// together.
//
// A line that stops inside the boundary is carried on the way its end points,
// to the boundary or the first line met; one that comes back to its beginning
// cuts out what is inside it. Without a boundary the parts reach 1 m beyond
// heights and lines. Holes of the boundary are not looked at.
//
// A height marked top or toe within 0.5 m of a line goes to the higher or lower
// side by the heights around, whatever side it was drawn on; one without a mark
// within 20 mm of a line to the side whose level it is nearer to. Where one
// line's marks are all top and another's all toe, the strip between is a bank:
// the heights of both edges count for it too. A part with fewer than 4 heights,
// or heights in one line, is a plane with the general fall of the part it has
// most of a line in common with, at its own level; all of it is Extrapolated.
// The distances and limits are defaults of ours.
//
// The answer's Pieces tells the parts. Its Plane is the fall common to all
// parts, each at its own level (by least squares). Where no line cuts the plot
// it is the fit of FitSpots with a note. Errors are those of FitSpots,
// ErrTooFewHeights if no part has 4 heights, or an error naming a line that has
// a point that is not finite.
func FitPieces(spots []geodata.SpotHeight, lines []orb.LineString, boundary orb.Polygon, opt Options) (*Fit, error) {
	whole, err := newSurvey(spots, opt)
	if err != nil {
		return nil, fmt.Errorf("fit ground in parts: %w", err)
	}
	for i, l := range lines {
		if slices.ContainsFunc(l, func(p orb.Point) bool { return !finite(p) }) {
			return nil, fmt.Errorf("fit ground in parts: break line %d has a point that is not finite", i+1)
		}
	}
	ring, cuts, err := whole.outlines(lines, boundary)
	if err != nil {
		return nil, fmt.Errorf("fit ground in parts: %w", err)
	}
	faces, brinks := divide(ring, cuts)
	if len(faces) < 2 {
		fit, err := FitSpots(spots, opt)
		if err == nil && len(lines) > 0 {
			fit.Notes = append(fit.Notes, "No break line cuts the plot, so the ground was fitted as one.")
		}
		return fit, err
	}
	b := &breaking{survey: whole, opt: opt, sorting: sortHeights(localSpots(spots, whole.origin), faces, brinks)}
	if err := b.fitParts(); err != nil {
		return nil, fmt.Errorf("fit ground in parts: %w", err)
	}
	return b.whole(), nil
}

// localSpots are heights with places from an origin.
func localSpots(spots []geodata.SpotHeight, origin orb.Point) []geodata.SpotHeight {
	out := slices.Clone(spots)
	for i := range out {
		out[i].At = orb.Point{out[i].At[0] - origin[0], out[i].At[1] - origin[1]}
	}
	return out
}

// outlines are the boundary, anticlockwise, and the lines carried to their
// ends, all from the survey's origin.
func (s *survey) outlines(lines []orb.LineString, boundary orb.Polygon) (orb.Ring, []orb.LineString, error) {
	var cuts []orb.LineString
	around := orb.MultiPoint(slices.Clone(s.at))
	for _, l := range lines {
		local := make(orb.LineString, len(l))
		for i, p := range l {
			local[i] = s.local(p)
		}
		if local = tidy(local); local != nil {
			cuts = append(cuts, local)
			around = append(around, local...)
		}
	}
	ring := around.Bound().Pad(1).ToRing()
	if len(boundary) > 0 && len(boundary[0]) > 0 {
		var corners []orb.Point
		for _, p := range boundary[0] {
			corners = append(corners, s.local(p))
		}
		ring = geodata.CloseRing(corners)
		if faults := geodata.CheckRing(ring); len(faults) > 0 {
			return nil, nil, fmt.Errorf("the boundary %s", faults[0].Message)
		}
	}
	return ring, extended(cuts, ring), nil
}

// breaking is a fit in parts under way; places are from the survey's origin.
type breaking struct {
	*survey
	*sorting
	opt   Options
	parts []Part
}

// fitParts fits the parts that can be, then those that lean on them.
func (b *breaking) fitParts() error {
	fitted := make([]bool, len(b.faces))
	b.parts = make([]Part, len(b.faces))
	for i, f := range b.faces {
		p := &b.parts[i]
		p.Name, p.Heights = fmt.Sprintf("part %d of %d from the west", i+1, len(b.faces)), b.with[i]
		for _, r := range f.rings {
			p.Outline = append(p.Outline, b.moved(r))
		}
		if err := b.fitPart(i, b.opt); err != nil {
			return err
		}
		fitted[i] = p.Fit != nil
	}
	if !slices.Contains(fitted, true) {
		return fmt.Errorf("%w: no part between the break lines has %d that do not stand in one line", ErrTooFewHeights, leastForPart)
	}
	if err := b.shareHyper(); err != nil {
		return err
	}
	for i := range b.parts {
		if !fitted[i] {
			b.lean(i, b.longestBrink(i, fitted))
		}
	}
	return nil
}

// moved is a ring back on the plot.
func (b *breaking) moved(r orb.Ring) orb.Ring {
	out := make(orb.Ring, len(r))
	for i, p := range r {
		out[i] = orb.Point{p[0] + b.origin[0], p[1] + b.origin[1]}
	}
	return out
}

// plotSpots are a part's heights where they stand.
func (b *breaking) plotSpots(i int) []geodata.SpotHeight {
	return localSpots(b.of(i), orb.Point{-b.origin[0], -b.origin[1]})
}

// fitPart fits part i if it has heights enough for what is asked.
func (b *breaking) fitPart(i int, opt Options) error {
	if len(b.with[i]) < leastForPart {
		return nil
	}
	fit, err := FitSpots(b.plotSpots(i), opt)
	few := func() bool { return errors.Is(err, ErrTooFewHeights) || errors.Is(err, ErrHeightsInLine) }
	if few() { // for what is asked for
		opt.Force = PlaneKind
		fit, err = FitSpots(b.plotSpots(i), opt)
	}
	if few() { // in one line
		return nil
	}
	if err != nil {
		return err
	}
	ground, err := askerOf(fit)
	b.parts[i].Fit, b.parts[i].ground = fit, ground
	return err
}

// lean makes part i a plane with the fall of part on.
func (b *breaking) lean(i, on int) {
	var at []orb.Point
	var z, sigma []float64
	for _, k := range b.with[i] {
		at = append(at, b.plotPoint(k))
		z = append(z, b.base+b.z[k])
		sigma = append(sigma, b.sigma[k])
	}
	centre, _ := planar.CentroidArea(b.moved(b.faces[i].rings[0]))
	level, _ := b.parts[on].Fit.HeightAt(centre)
	p := &b.parts[i]
	p.Leans, p.LeansOn = true, on
	p.ground = newLeaning(b.parts[on].Fit.Plane, at, z, sigma, centre, level)
	text := fmt.Sprintf("%s has too few heights of its own (%s): the fall of %s was taken for it, at its own level.",
		sentence(p.Name), countHeights(len(at)), b.parts[on].Name)
	if len(at) == 0 {
		text = fmt.Sprintf("%s has no heights: the ground of %s was carried on over the break line, and its level is not known.",
			sentence(p.Name), b.parts[on].Name)
	}
	b.notes = append(b.notes, text+fmt.Sprintf(" Take at least %d there, not in one line.", leastForPart))
}

func countHeights(n int) string {
	if n == 1 {
		return "1 height"
	}
	return fmt.Sprintf("%d heights", n)
}

// shareHyper fits smooth parts again with hyperparameters in common.
func (b *breaking) shareHyper() error {
	var rs []readings
	var scatter []float64
	for _, p := range b.parts {
		if p.Fit != nil && p.Fit.Kind == SmoothKind {
			rs = append(rs, p.Fit.Smooth.data)
			s := p.Fit.Smooth.survey
			scatter = append(scatter, planeScatter(s))
		}
	}
	if len(rs) < 2 {
		return nil
	}
	h := findShared(rs, scatter)
	opt := b.opt
	opt.hyper = &h
	for i, p := range b.parts {
		if p.Fit != nil && p.Fit.Kind == SmoothKind {
			opt.Force = SmoothKind
			why := p.Fit.Why
			if err := b.fitPart(i, opt); err != nil {
				return err
			}
			b.parts[i].Fit.Why = why
		}
	}
	return nil
}

// planeScatter is the variance of heights about their plane, m2.
func planeScatter(s *survey) float64 {
	if l, ok := fitLinear(s, planeTerms, nil); ok {
		return l.variance()
	}
	return leastVariance
}

// whole puts the parts together.
func (b *breaking) whole() *Fit {
	out := &Fit{Kind: PiecesKind, Sigma: b.tau, Residuals: make([]Residual, len(b.spots))}
	out.Pieces = &Pieces{Parts: b.parts, origin: b.origin, faces: b.faces}
	out.Surface = out.Pieces
	out.Notes = append(out.Notes, b.notes...)
	var kinds []string
	squares, count := 0.0, 0
	for _, p := range b.parts {
		if p.Fit == nil {
			kinds = append(kinds, fmt.Sprintf("%s leans on part %d", p.Name, p.LeansOn+1))
			continue
		}
		kinds = append(kinds, p.Name+": "+p.Fit.Why)
		out.Uneven = out.Uneven || p.Fit.Uneven
		out.Quantile = math.Max(out.Quantile, p.Fit.Quantile)
		out.Tests = append(out.Tests, p.Fit.Tests...)
		squares += p.Fit.SpreadOfResiduals * p.Fit.SpreadOfResiduals * float64(len(p.Heights))
		count += len(p.Heights)
		for _, n := range p.Fit.Notes {
			out.Notes = append(out.Notes, sentence(p.Name)+": "+n)
		}
		for _, s := range p.Fit.Suspects {
			s.Index = p.Heights[s.Index]
			if !slices.ContainsFunc(out.Suspects, func(t Suspect) bool { return t.Index == s.Index }) {
				out.Suspects = append(out.Suspects, s)
			}
		}
	}
	out.Why = "the ground is in parts along its break lines; " + strings.Join(kinds, "; ")
	out.SpreadOfResiduals = math.Sqrt(squares / float64(count))
	out.Plane = b.commonFall()
	for i := range b.spots {
		out.Residuals[i] = b.residualOf(i)
	}
	return out
}

// residualOf is a height's residual in its own part.
func (b *breaking) residualOf(i int) Residual {
	p := b.parts[b.own[i]]
	if p.Fit != nil {
		return p.Fit.Residuals[slices.Index(p.Heights, i)]
	}
	z, _ := p.ground.HeightAt(b.plotPoint(i))
	return Residual{Name: b.names[i], Residual: b.base + b.z[i] - z, Leverage: 1}
}

// commonFall is the weighted least-squares gradient common to all parts, each
// at its own level: that of the heights less the means of their parts (the
// theorem of Frisch and Waugh 1933, Econometrica 1, 387-401, from memory).
func (b *breaking) commonFall() *Plane {
	var n square
	var r [2]float64
	type reading struct{ u, v, z, w float64 }
	var all []reading
	levels := 0
	for f := range b.faces {
		var x, y, z, sum float64
		first := len(all)
		for i, own := range b.own {
			if own != f {
				continue
			}
			w := 1 / (b.sigma[i] * b.sigma[i])
			all = append(all, reading{b.at[i][0], b.at[i][1], b.z[i], w})
			x, y, z, sum = x+w*b.at[i][0], y+w*b.at[i][1], z+w*b.z[i], sum+w
		}
		for k := first; k < len(all); k++ {
			a := &all[k]
			a.u, a.v, a.z = a.u-x/sum, a.v-y/sum, a.z-z/sum
			n[0][0] += a.w * a.u * a.u
			n[0][1] += a.w * a.u * a.v
			n[1][1] += a.w * a.v * a.v
			r[0] += a.w * a.u * a.z
			r[1] += a.w * a.v * a.z
		}
		if len(all) > first {
			levels++
		}
	}
	det := n[0][0]*n[1][1] - n[0][1]*n[0][1]
	p := &Plane{Quantile: normal95(), Passes: true}
	p.Covariance = square{{n[1][1] / det, -n[0][1] / det}, {-n[0][1] / det, n[0][0] / det}}
	p.Gradient.East = p.Covariance[0][0]*r[0] + p.Covariance[0][1]*r[1]
	p.Gradient.North = p.Covariance[1][0]*r[0] + p.Covariance[1][1]*r[1]
	chi2, df := 0.0, len(all)-levels-2
	for _, a := range all {
		e := a.z - p.Gradient.East*a.u - p.Gradient.North*a.v
		chi2 += a.w * e * e
	}
	if p.Passes = chi2 <= chiLimit(df); !p.Passes {
		for i := range 2 {
			for j := range 2 {
				p.Covariance[i][j] *= chi2 / float64(df)
			}
		}
		p.Quantile = student95(float64(df))
	}
	return p
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
