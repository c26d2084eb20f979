package erosion

import (
	"math"

	"crossfall/geodata"
	"crossfall/siting/soil"
)

// perUnitedStates turns an erodibility in United States units, ton acre h per
// hundred acre ft tonf in, into t ha h/(ha MJ mm): Foster and others 1981,
// Journal of Soil and Water Conservation 36:355-359; exact from the foot, the
// pound and the acre.
const perUnitedStates = 0.1317136

// bandErodibility is how far a figure for a texture may be off, either way: the
// nomograph itself misses measured soils by as much (Auerswald and others 2014,
// Catena 118:220-225).
const bandErodibility = 1.5

// unitedStates is the erodibility of a texture with its middle organic matter
// (Stewart and others 1975, in the factsheet of an agricultural ministry after
// Wischmeier & Smith 1978); of silt, which it lacks, the middle of the range 0.45
// to 0.65 given for soil high in silt; of sandy clay by Williams 1995 at the
// middle of its class, 52 % sand, 6 % silt and 42 % clay with 1.5 % organic carbon.
var unitedStates = map[soil.Texture]float64{
	soil.Sand: .02, soil.LoamySand: .04, soil.SandyLoam: .13, soil.Loam: .30, soil.SiltLoam: .38, soil.Silt: .55,
	soil.SandyClayLoam: .20, soil.ClayLoam: .30, soil.SiltyClayLoam: .32, soil.SiltyClay: .26, soil.Clay: .22,
	soil.SandyClay: williams(52, 6, 42, 1.5),
}

// Erodibility is K of a mineral soil of a texture, t ha h/(ha MJ mm), within a
// factor of 1.5 either way. For a texture that is not known it is that of loam
// in a band from sandy loam to silt loam. Peat and compost have none: no figure
// for either is published.
func Erodibility(t soil.Texture) geodata.Estimate {
	k, known := unitedStates[t]
	if !known {
		return geodata.Estimate{
			Value: unitedStates[soil.Loam] * perUnitedStates,
			Low:   unitedStates[soil.SandyLoam] * perUnitedStates / bandErodibility,
			High:  unitedStates[soil.SiltLoam] * perUnitedStates * bandErodibility,
		}
	}
	k *= perUnitedStates
	return geodata.Estimate{Value: k, Low: k / bandErodibility, High: k * bandErodibility}
}

// williams is the erodibility of a soil by its sand, silt, clay and organic
// carbon, all in percent, in United States units: Williams 1995, chapter 25 of
// Singh, Computer Models of Watershed Hydrology, from memory.
func williams(sand, silt, clay, carbon float64) float64 {
	coarse := 0.2 + 0.3*math.Exp(-0.0256*sand*(1-silt/100))
	fine := math.Pow(silt/(clay+silt), 0.3)
	organic := 1 - 0.25*carbon/(carbon+math.Exp(3.72-2.95*carbon))
	sn := 1 - sand/100
	sandy := 1 - 0.7*sn/(sn+math.Exp(-5.51+22.9*sn))
	return coarse * fine * organic * sandy
}
