package surface

import (
	"errors"
	"fmt"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

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
// heights and lines. A hole in the boundary is no part: lines end at its edge, and
// what is asked of inside it is answered by the nearest part.
//
// A height marked top or toe within 0.5 m of a line goes to the higher or lower
// side by the heights around, whatever side it was drawn on; one without a mark
// within 20 mm of a line to the side whose level it is nearer to. Where one
// line's marks are all top and a lower one's all toe, and no height between them
// is a quarter of the rise off the straight slope from one to the other, the
// strip between is a bank: the heights of both edges count for it too. A part with fewer than 4 heights,
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
	local, cuts, err := whole.outlines(lines, boundary)
	if err != nil {
		return nil, fmt.Errorf("fit ground in parts: %w", err)
	}
	faces, brinks := divide(local, cuts)
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

// outlines are the boundary and the lines carried to their ends, all from the
// survey's origin.
func (s *survey) outlines(lines []orb.LineString, boundary orb.Polygon) (orb.Polygon, []orb.LineString, error) {
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
	local := orb.Polygon{around.Bound().Pad(1).ToRing()}
	if len(boundary) > 0 && len(boundary[0]) > 0 {
		local = nil
		for _, r := range boundary {
			var corners []orb.Point
			for _, p := range r {
				corners = append(corners, s.local(p))
			}
			ring := geodata.CloseRing(corners)
			if faults := geodata.CheckRing(ring); len(faults) > 0 {
				return nil, nil, fmt.Errorf("the boundary %s", faults[0].Message)
			}
			local = append(local, ring)
		}
	}
	return local, extended(cuts, local), nil
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
