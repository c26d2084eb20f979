package siting

import (
	"math"

	"crossfall/geodata"
	"crossfall/siting/erosion"
	"crossfall/siting/rain"

	"github.com/paulmach/orb/planar"
)

// yearlyLoss is the soil that a year carries off the plot under each cover, or
// the reason why it cannot be told.
func (j judge) yearlyLoss() (losses []CoverLoss, note string) {
	losses = []CoverLoss{}
	year, err := rain.ErosivityOf(j.plot.Rain, j.plot.Site.Rain, j.plot.Site.Place)
	if err != nil {
		return losses, "yearly soil loss cannot be told: " + err.Error()
	}
	all, err := erosion.YearlyLoss(erosion.Site{
		Erosivity: year.R, Erodibility: j.brief.Erodibility, Slope: j.plotSlope(), Run: j.longRun(),
	})
	if err != nil {
		return losses, "yearly soil loss cannot be told: " + err.Error()
	}
	for _, l := range all {
		losses = append(losses, CoverLoss{Cover: string(l.Cover), Loss: l.Loss, Said: l.Said, Because: l.Because})
	}
	return losses, "yearly soil loss (Agriculture Handbook 703); erosivity from " + year.Source
}

// plotSlope is the general fall of the plot.
func (j judge) plotSlope() geodata.Estimate {
	return percentOf(j.fit.Plane.Gradient, j.fit.Plane.Covariance, j.fit.Plane.Quantile).Times(0.01)
}

// longRun is how far water runs over the plot without a stop, m: its area over
// its width across the general fall, from half of that to its whole depth along
// the fall. What is said to lie above the plot counts on top.
func (j judge) longRun() geodata.Estimate {
	down := j.fit.Plane.Gradient.Downhill()
	east, north := down.Unit()
	extent := func(e, n float64) float64 {
		low, high := math.Inf(1), math.Inf(-1)
		for _, q := range j.plot.Boundary[0] {
			at := q[0]*e + q[1]*n
			low, high = math.Min(low, at), math.Max(high, at)
		}
		return high - low
	}
	depth, width := extent(east, north), extent(-north, east)
	mean := planar.Area(j.plot.Boundary) / width
	above := j.brief.UphillLength
	return geodata.Estimate{Value: mean + above, Low: mean / 2, High: depth + above}
}
