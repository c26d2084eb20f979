package soil

// Gravity is the weight of a kilogram in newtons, and WaterWeight the weight
// of a cubic metre of water in kilonewtons.
const (
	Gravity     = 9.81
	WaterWeight = 9.81
)

// Fill is what a bed is filled with.
type Fill struct {
	Word string
	// Density moist as bought, wet in winter, and with every pore full, kg/m3.
	MoistDensity, WetDensity, SaturatedDensity float64
	// The same as unit weights for loads on boards, kN/m3, rounded upwards.
	Moist, Wet, Saturated float64
	FrictionAngle         float64 // drained, radians
	Source                string
}

// DefaultFill is the word for the fill used when nothing was said.
const DefaultFill = "screened compost"

var fills = []Fill{
	{
		Word: DefaultFill, MoistDensity: 600, WetDensity: 890, SaturatedDensity: 1050,
		Moist: 6.0, Wet: 8.7, Saturated: 10.3, FrictionAngle: radians(35),
		Source: "about 1000 lb/yd3 moist and over 1500 lb/yd3 very wet: Oregon State University Extension; " +
			"wet bulk density 500 to 900 kg/m3: Agnew and Leonard 2003, Compost Science & Utilization 11:238; " +
			"friction 35 degrees without cohesion is below the 36 degrees of Bray and others 2009, ASCE J. Geotech.; saturated: a default of ours",
	},
	{
		Word: "well-rotted manure", MoistDensity: 700, WetDensity: 900, SaturatedDensity: 1050,
		Moist: 6.9, Wet: 8.8, Saturated: 10.3, FrictionAngle: radians(30),
		Source: "default of ours",
	},
	{
		Word: "loose topsoil", MoistDensity: 1250, WetDensity: 1600, SaturatedDensity: 1800,
		Moist: 12.3, Wet: 15.7, Saturated: 17.7, FrictionAngle: radians(30),
		Source: "usual range for loose topsoil, from memory of soil mechanics texts",
	},
	{
		Word: "half soil, half compost", MoistDensity: 950, WetDensity: 1250, SaturatedDensity: 1450,
		Moist: 9.3, Wet: 12.3, Saturated: 14.2, FrictionAngle: radians(32),
		Source: "default of ours, between compost and topsoil",
	},
}

// FillNamed is the fill of a word, exactly as FillWords gives it.
func FillNamed(word string) (Fill, bool) {
	for _, f := range fills {
		if f.Word == word {
			return f, true
		}
	}
	return Fill{}, false
}

// FillWords lists the fills, lightest first when moist, mixtures last.
func FillWords() []string {
	words := make([]string, len(fills))
	for i, f := range fills {
		words[i] = f.Word
	}
	return words
}

// WetDensityFrom is the density of a material of dry density (kg/m3) at a
// moisture content given as the part of the wet mass that is water, 0 or more
// and under 1. Conservation of mass.
func WetDensityFrom(dry, moisture float64) float64 { return dry / (1 - moisture) }
