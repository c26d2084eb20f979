// Package walk judges a survey while it is being made: what the ground is like
// so far, which readings look wrong, and whether a new one agrees with the
// rest.
package walk

import (
	"cmp"
	"math"
	"slices"

	"crossfall/geodata"
	"crossfall/terrain"
	"crossfall/terrain/surface"

	"github.com/paulmach/orb"
)

// Survey is what the readings say so far. Lengths are metres unless a key
// names another unit; bearings are degrees clockwise from North.
type Survey struct {
	Name     string           `json:"name"`
	North    string           `json:"north"`
	Readings []Reading        `json:"readings"`
	Surface  string           `json:"surface"` // "plane", "curved", "smooth"
	Why      string           `json:"surface_why"`
	Uneven   bool             `json:"uneven"`
	Fall     geodata.Estimate `json:"fall_percent"`
	FallSaid string           `json:"fall_said"`
	// Bearing is the way water leaves; null when it cannot be told.
	Bearing   *geodata.Estimate `json:"runoff_bearing_degrees"`
	Precision float64           `json:"reading_precision_mm"`
	Spread    float64           `json:"residual_spread_mm"`
	Spacing   float64           `json:"median_spacing_m"` // to the nearest other reading
	Suspects  []Suspect         `json:"suspect_heights"`
	Gap       *Gap              `json:"widest_gap"` // null without a boundary to look in
	Notes     []string          `json:"notes"`
	Findings  geodata.Faults    `json:"findings"`
}

// Reading is one height with what the surface leaves of it.
type Reading struct {
	Name        string    `json:"name"`
	At          orb.Point `json:"at"`
	Height      float64   `json:"height_m"`
	Averaged    int       `json:"readings"` // rows that went into it
	Residual    float64   `json:"residual_mm"`
	Studentised float64   `json:"studentised"` // the residual over its standard error, 0 where it cannot be checked
}

// Suspect is a height that looks mis-booked.
type Suspect struct {
	Name   string `json:"name"`
	Reason string `json:"reason"`
}

// FitPlot fits the ground of a plot: one surface, or with break lines drawn (the
// tops of banks, walls, terrace edges) one on each side of them, so that nothing
// is smoothed across. Heights whose places are not sure count for less where the
// ground is steep. The error is that of surface.FitSpots or FitPieces.
func FitPlot(p *geodata.Plot) (*surface.Fit, error) {
	fit, err := fitSpots(p, p.Spots)
	if err != nil {
		return nil, err
	}
	if spots, matters := withPlaceErrors(p, fit); matters {
		return fitSpots(p, spots)
	}
	return fit, nil
}

// fitSpots fits heights with the plot's break lines.
func fitSpots(p *geodata.Plot, spots []geodata.SpotHeight) (*surface.Fit, error) {
	opt := surface.Options{Sigma: stated(p), Force: surface.Kind(p.Site.Ground.Surface)}
	var lines []orb.LineString
	for _, f := range p.OfKind(geodata.BreakLineKind) {
		if line, ok := f.Shape.(orb.LineString); ok {
			lines = append(lines, line)
		}
	}
	if len(lines) == 0 {
		return surface.FitSpots(spots, opt)
	}
	return surface.FitPieces(spots, lines, p.Boundary, opt)
}

// Look judges the readings of a plot. The error is that of FitPlot.
func Look(p *geodata.Plot) (*Survey, error) {
	fit, err := FitPlot(p)
	if err != nil {
		return nil, err
	}
	s := &Survey{
		Name: p.Name, North: p.Frame.North,
		Surface: string(fit.Kind), Why: fit.Why, Uneven: fit.Uneven,
		Precision: fit.Sigma * 1000, Spread: fit.SpreadOfResiduals * 1000,
		Spacing: spacing(p.Spots), Suspects: []Suspect{}, Notes: append([]string{}, fit.Notes...),
		Findings: append(geodata.Faults{}, p.Notes...),
	}
	s.fall(p, fit)
	for i, h := range p.Spots {
		s.Readings = append(s.Readings, Reading{
			Name: h.Name, At: h.At, Height: h.Height, Averaged: max(1, h.Readings),
			Residual: fit.Residuals[i].Residual * 1000, Studentised: fit.Residuals[i].Studentised,
		})
	}
	for _, x := range fit.Suspects {
		s.Suspects = append(s.Suspects, Suspect{Name: x.Name, Reason: x.Reason})
	}
	s.Gap = widestGap(p, fit)
	return s, nil
}

// stated is the precision that the grower named, m; 0 without one.
func stated(p *geodata.Plot) float64 {
	if p.Site.Ground.Precision == nil {
		return 0
	}
	return *p.Site.Ground.Precision / 1000
}

// fall fills in the general fall and the way water leaves.
func (s *Survey) fall(p *geodata.Plot, fit *surface.Fit) {
	plane := fit.Plane
	v, low, high := surface.FallInterval(plane.Gradient, plane.Covariance, plane.Quantile)
	s.Fall = geodata.Estimate{Value: v, Low: low, High: high}.Times(100)
	told := surface.Determined(plane.Gradient, plane.Covariance)
	s.FallSaid = terrain.FallSaid(s.Fall, told)
	from, to, ok := surface.BearingInterval(plane.Gradient, plane.Covariance, plane.Quantile)
	if !ok || !told {
		return
	}
	degrees := func(b terrain.Bearing) float64 {
		return terrain.Bearing(float64(b) + p.Frame.NorthTurn).Normal().Degrees()
	}
	s.Bearing = &geodata.Estimate{Value: degrees(plane.Gradient.Downhill()), Low: degrees(from), High: degrees(to)}
}

// spacing is the median distance from a reading to the nearest other, m.
func spacing(spots []geodata.SpotHeight) float64 {
	nearest := make([]float64, 0, len(spots))
	for i, a := range spots {
		d := math.Inf(1)
		for j, b := range spots {
			if i != j {
				d = math.Min(d, math.Hypot(a.At[0]-b.At[0], a.At[1]-b.At[1]))
			}
		}
		nearest = append(nearest, d)
	}
	slices.SortFunc(nearest, cmp.Compare)
	return nearest[len(nearest)/2]
}
