package siting

import (
	"math"
	"strings"

	"crossfall/geodata"
	"crossfall/siting/soil"
)

// fill settles what the beds are filled with. A density measured dry and a
// moisture take the place of the moist weight that the word stands for; what is
// wetter is never taken as lighter than that.
func (s *settler) fill(b *Brief, c geodata.CompostOffer, faults *geodata.Faults) {
	word := c.Fill
	if word == "" {
		word = soil.DefaultFill
		s.assume("fill of the beds", word, "site.toml: compost.fill")
	}
	material, ok := soil.FillNamed(word)
	if !ok {
		faults.Add(geodata.Fault{
			Code: "fill-word-unknown", Pos: geodata.Pos{File: "site.toml"}, Read: word,
			Message: "compost.fill is not one of the fills",
			Want:    "write one of \"" + strings.Join(soil.FillWords(), "\", \"") + "\": weights and friction are known for these alone",
		})
		material, _ = soil.FillNamed(soil.DefaultFill)
	}
	b.Measured = c.DryDensity != nil && c.Moisture != nil
	if b.Measured {
		moist := soil.WetDensityFrom(*c.DryDensity, *c.Moisture/100)
		weight := moist * soil.Gravity / 1000
		material.MoistDensity, material.Moist = moist, weight
		material.WetDensity, material.Wet = math.Max(material.WetDensity, moist), math.Max(material.Wet, weight)
		material.SaturatedDensity, material.Saturated = math.Max(material.SaturatedDensity, moist), math.Max(material.Saturated, weight)
	} else if c.DryDensity != nil || c.Moisture != nil {
		faults.Add(geodata.Fault{
			Code: "fill-half-measured", Pos: geodata.Pos{File: "site.toml"},
			Message: "compost.dry_density_kg_m3 and compost.moisture_percent are of use only together",
			Want:    "give both, or neither",
		})
	}
	b.Material = material
}

// density is that of the fill as carried, kg/m3: from dry to wet as laid in
// winter, or as measured with a tenth either way.
func (b Brief) density() geodata.Estimate {
	m := b.Material
	if b.Measured {
		return geodata.Estimate{Value: m.MoistDensity, Low: 0.9 * m.MoistDensity, High: 1.1 * m.MoistDensity}
	}
	return geodata.Estimate{Value: m.MoistDensity, Low: m.MoistDensity * 5 / 6, High: m.WetDensity}
}
