package siting

import (
	"math"

	"crossfall/geodata"
	"crossfall/siting/bed"
	"crossfall/siting/erosion"
	"crossfall/siting/frame"
	"crossfall/siting/rain"
)

// winterShare is the part of a year's erosivity that falls in the winter half
// where no month's rain is known; a default of ours.
var winterShare = geodata.Estimate{Value: 0.5, Low: 0.3, High: 0.8}

// winterErosivity is the erosive power of the winter half-year, MJ mm/(ha h); ok
// is false where the rain does not tell it.
func winterErosivity(p *geodata.Plot) (e geodata.Estimate, ok bool) {
	year, err := rain.ErosivityOf(p.Rain, p.Site.Rain, p.Site.Place)
	if err != nil {
		return e, false
	}
	share := winterShare
	if year.WinterShare != nil {
		share = *year.WinterShare
	}
	return geodata.Estimate{
		Value: year.R.Value * share.Value, Low: year.R.Low * share.Low, High: year.R.High * share.High,
	}, true
}

// risks sets the compost that a winter may take by five ways of edging a bed
// beside one another; nil where the rain does not tell it, or the method does not
// reach.
func (j judge) risks(d decision) []erosion.Risk {
	winter, ok := winterErosivity(j.plot)
	if !ok || d.chosen.Class == frame.DoNotBuild {
		return nil
	}
	top := topOf(d.chosen, d.ground)
	fall := math.Hypot(top.Across, top.Along)
	risks, err := erosion.AtRisk(erosion.Compost{
		Erosivity: winter, Erodibility: j.brief.Erodibility,
		Top: fall, LevelTop: fall, Run: runOver(d.bed, d.ground),
		Area: d.bed.Length * d.bed.Width, Volume: d.fill.Volume, Density: j.brief.Material.MoistDensity,
		Edge: d.bed.Length, Depth: d.chosen.Fill, Shear: d.runOn.flow.OnLoose(d.ground.Slope),
	})
	if err != nil {
		return nil
	}
	return risks
}

// atRisk is the compost that a winter may carry off a bed by its edge, kg.
func (j judge) atRisk(d decision) map[frame.Class]geodata.Estimate {
	out := map[frame.Class]geodata.Estimate{}
	for _, r := range j.risks(d) {
		out[frame.Class(r.Way)] = r.Lost
	}
	return out
}

// runOver is how far water runs over a bed down its fall, m.
func runOver(b bed.Bed, g bed.Ground) float64 {
	slope := math.Hypot(g.Across.Value, g.Along.Value)
	if slope == 0 {
		return b.Width
	}
	return (g.Across.Value*b.Width + g.Along.Value*b.Length) / slope
}
