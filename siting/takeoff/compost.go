package takeoff

import (
	"math"

	"crossfall/geodata"
)

// Compost figures. All but density are common practice, no source.
const (
	// DefaultOrderFactor is loose compost to order over compost as laid.
	DefaultOrderFactor = 1.15
	// DefaultLoad is one barrow load as laid, litres: a part-filled barrow on a slope.
	DefaultLoad = 45.0
	// DefaultBarrow is an empty barrow, kg: a default of ours.
	DefaultBarrow = 15.0
	// topUp and its ends are the depth added each year, m.
	topUp, topUpLow, topUpHigh = 0.0375, 0.025, 0.050
	// Density of moist compost, kg/m3: near 600 at 50 % moisture and about 890
	// very wet (Oregon State University Extension, 1000 and 1500 lb per cubic
	// yard), 500 to 900 wet (Agnew & Leonard, Compost Science & Utilization 11
	// (2003) 238).
	density, densityLow, densityHigh = 600.0, 500.0, 900.0
)

// countCompost fills in volume, order, loads, mass, push and yearly top-up.
func countCompost(list *List, said *lines, beds []BedInput, site geodata.Site) {
	if len(beds) == 0 {
		return
	}
	area, steepest, known := 0.0, 0.0, true
	for _, b := range beds {
		list.Compost.Value += b.Volume.Value
		list.Compost.Low += min(b.Volume.Low, b.Volume.Value)
		list.Compost.High += max(b.Volume.High, b.Volume.Value)
		area += b.Length * b.Width
		rise := b.FallGradient
		if b.Way != nil {
			rise = *b.Way
		}
		steepest, known = max(steepest, rise), known && b.Way != nil
	}
	v := list.Compost
	factor := orderFactor(site)
	list.CompostOrder = v.Times(factor)
	rho := densityOf(beds)
	list.Mass = geodata.Estimate{Value: v.Value * rho.Value, Low: v.Low * rho.Low, High: v.High * rho.High}
	list.YearlyTopUp = geodata.Estimate{Value: area * topUp, Low: area * topUpLow, High: area * topUpHigh}

	load := loadOf(site)
	list.Loads = geodata.Estimate{Value: Loads(v.Value, load), Low: Loads(v.Low, load), High: Loads(v.High, load)}
	if site.Compost.OrderFactor == nil {
		said.add("compost is ordered loose at %.2f times the laid volume (common practice); freshly screened compost needs 1.25 times", factor)
	}
	said.add("the fill is taken as %.0f kg/m³ as carried, %.0f to %.0f kg/m³", rho.Value, rho.Low, rho.High)
	said.add("top-up each year is taken as %.0f to %.0f mm (common practice)", 1000*topUpLow, 1000*topUpHigh)
	list.PushOn = "the steepest fall under the beds"
	if known {
		list.PushOn = "the steepest rise of the ways to the beds"
	}
	countPush(list, said, rho, steepest, load, value(site.Carrying.Barrow, DefaultBarrow))
}

// densityOf is the density of the beds' fill, which is one and the same.
func densityOf(beds []BedInput) geodata.Estimate {
	if d := beds[0].Density; d.Value > 0 {
		return d
	}
	return geodata.Estimate{Value: density, Low: densityLow, High: densityHigh}
}

// loadOf is the laid volume of one load, litres.
func loadOf(site geodata.Site) float64 {
	if l := value(site.Carrying.Load, DefaultLoad); l > 0 {
		return l
	}
	return DefaultLoad
}

// orderFactor is loose compost over compost as laid.
func orderFactor(site geodata.Site) float64 {
	return max(1, value(site.Compost.OrderFactor, DefaultOrderFactor))
}

// Loads is how many loads of so many litres carry a volume in m3.
func Loads(volume, litres float64) float64 { return math.Ceil(1000*volume/litres - 1e-9) }
