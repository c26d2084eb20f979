package erosion

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// Analysis is a mineral topsoil as a laboratory gives it, in percent by weight of
// what is finer than 2 mm; stones in percent of the surface.
type Analysis struct {
	Sand, Silt, Clay float64 // sand .05 to 2 mm, silt .002 to .05 mm; together 100
	VeryFineSand     float64 // .05 to .10 mm, part of the sand; negative: not known
	Organic          float64 // organic matter, 1.72 times the organic carbon
	Stones           float64 // cover of stones
	Structure        int     // 1 very fine granular, 2 fine granular, 3 medium to coarse granular, 4 blocky, platy or massive
	Permeability     int     // 1 rapid to 6 very slow
}

const (
	// mostOrganic is the organic matter up to which the nomograph was drawn, and
	// peaty that from which soil is no mineral soil any more, percent.
	mostOrganic = 4.0
	peaty       = 20.0
	// mostFine is the silt and very fine sand up to which its equation holds,
	// percent; over it the band is bandFine.
	mostFine = 70.0
	bandFine = 2.0
	// The ends of erodibilities found in soil surveys, United States units.
	leastUnitedStates = 0.02
	mostUnitedStates  = 0.69
)

// ErodibilityOf is K of an analysed soil, t ha h/(ha MJ mm): the nomograph with
// its bends for soils of low erodibility, much organic matter and stones
// (Auerswald and others 2014, Catena 118:220-225, from memory), within a factor
// of 1.5; over 70 % silt and very fine sand the plain equation of Wischmeier,
// Johnson & Cross 1971, within one of 2, also where very fine sand is not known
// and reckoned from the sand. Peat and compost, 20 % organic matter and more, and
// what is not an analysis, are ErrRange: no erodibility of theirs is published.
func ErodibilityOf(a Analysis) (geodata.Estimate, error) {
	if err := a.check(); err != nil {
		return geodata.Estimate{}, err
	}
	band := bandErodibility
	if a.VeryFineSand < 0 {
		a.VeryFineSand, band = 0.74*a.Sand-0.62*a.Sand*a.Sand/100, bandFine
	}
	var k float64
	if fine := a.Silt + a.VeryFineSand; fine > mostFine {
		k, band = a.plain(fine)*perUnitedStates, bandFine
	} else {
		k = a.bent(fine)
	}
	k = math.Max(leastUnitedStates*perUnitedStates, math.Min(mostUnitedStates*perUnitedStates, k))
	return geodata.Estimate{Value: k, Low: k / band, High: k * band}, nil
}

func (a Analysis) check() error {
	within := func(v, most float64) bool { return v >= 0 && v <= most }
	switch {
	case !within(a.Sand, 100) || !within(a.Silt, 100) || !within(a.Clay, 100) || math.Abs(a.Sand+a.Silt+a.Clay-100) > 1:
		return fmt.Errorf("sand %g, silt %g and clay %g percent should make 100: %w", a.Sand, a.Silt, a.Clay, ErrRange)
	case !(a.VeryFineSand <= a.Sand):
		return fmt.Errorf("very fine sand %g percent of %g percent sand: %w", a.VeryFineSand, a.Sand, ErrRange)
	case !within(a.Stones, 100):
		return fmt.Errorf("stones %g percent: %w", a.Stones, ErrRange)
	case !(a.Organic >= 0 && a.Organic < peaty):
		return fmt.Errorf("organic matter %g percent: mineral soil has 0 to %g, and for peat and compost no erodibility is published: %w", a.Organic, peaty, ErrRange)
	case a.Structure < 1 || a.Structure > 4 || a.Permeability < 1 || a.Permeability > 6:
		return fmt.Errorf("structure %d should be 1 to 4 and permeability %d 1 to 6: %w", a.Structure, a.Permeability, ErrRange)
	}
	return nil
}

// plain is the equation of the nomograph, in United States units.
func (a Analysis) plain(fine float64) float64 {
	m := fine * (100 - a.Clay)
	organic := math.Min(a.Organic, mostOrganic)
	return (2.1e-4*math.Pow(m, 1.14)*(12-organic) + 3.25*float64(a.Structure-2) + 2.5*float64(a.Permeability-3)) / 100
}

// bent is the nomograph with its bends, t ha h/(ha MJ mm). Its own unit, t h/(ha
// N), is ten times that.
func (a Analysis) bent(fine float64) float64 {
	grain := 2.77e-5 * math.Pow(fine, 1.14) * math.Pow(100-a.Clay, 1.14)
	first := grain * (12 - math.Min(a.Organic, mostOrganic)) / 10
	structure, drains := float64(a.Structure), 0.033*float64(a.Permeability-3)
	k := first + 0.043*(structure-2) + drains
	if first <= 0.2 {
		k = 0.091 - 0.34*first + 1.79*first*first + 0.24*first*structure + drains
	}
	if a.Stones >= 1.5 {
		k *= 1.1*math.Exp(-0.024*a.Stones) - 0.06
	}
	return k / 10
}
