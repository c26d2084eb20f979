package erosion

import (
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/soil"
)

// Way is one way to keep the compost of a bed over a winter.
type Way string

// The ways, in the order in which they keep more.
const (
	OpenEdged   Way = "open-edged"
	Boarded     Way = "boarded"
	SunkenEdged Way = "boarded with sunken edges and pegs"
	SteppedBays Way = "stepped"
	SheetOver   Way = "covered for the winter"
)

// Compost is one bed before a winter.
type Compost struct {
	Erosivity   geodata.Estimate // of the winter half-year
	Erodibility geodata.Estimate // of the soil underneath
	Top         float64          // fall of the top of the compost, and of a level bay's
	LevelTop    float64
	Run         float64 // of water over the top, down the fall, m
	Area        float64 // of the top, m2
	Volume      float64 // of compost, m3
	Density     float64 // moist, kg/m3
	Edge        float64 // length of the upper edge, m
	Depth       float64 // of the compost at its upper edge, m
	// Shear is the pull of run-on on loose compost at the upper edge in the storm
	// met once in ten years, Pa.
	Shear geodata.Estimate
}

// Risk is the compost that one way of edging may lose in a winter.
type Risk struct {
	Way     Way
	Lost    geodata.Estimate // kg
	Litres  geodata.Estimate // as laid
	Share   geodata.Estimate // of the compost, 0 to 1
	Because string
}

// No erodibility of a compost is published, and board sides stand in no table
// of cover or practice. What follows are defaults of ours, stated so that they
// can be argued with.
const (
	// A layer of compost is taken as cover on the soil underneath: coarse
	// compost of 25 mm and more leaves .02 to .3 of the loss, fine sieved .3 to 1
	// (ranges set beside Faucette and others 2004, Journal of Soil and Water
	// Conservation 59:154-160, where all composts but one lost less than bare soil).
	layerValue, layerLow, layerHigh = 0.2, 0.02, 1.0
	// bandBed is how far the product may be off for one bed, either way.
	bandBed = 5.0
	// Boards that stand 25 mm above the compost keep what rain loosens, but for
	// splash over the rim.
	rimValue, rimLow, rimHigh = 0.1, 0.02, 0.3
	// Of what run-on takes of an open edge, boards that are not let in lose what
	// is washed through under them; a sunken edge and a sheet dug in at its upper
	// side lose hardly anything.
	underValue, underHigh = 0.1, 0.5
	dugInHigh             = 0.05
	// An open edge stands at 35 degrees: what lies outside the foot of its crest
	// is what run-on can take first.
	batter = 35 * math.Pi / 180
	// A pull that could take the batter does not take all of it: run-on comes in
	// threads, and what it has cut into it leaves alone.
	batterValue, batterLow = 0.5, 0.1
)

// AtRisk sets the compost that a winter may take beside one another for five ways
// of edging the bed. Rain on the bed itself takes R K LS C times its area, with
// the erosivity of the winter, the erodibility of the soil underneath, the slope
// factor of the top, and the layer's own cover factor, in a band of 5 either
// way; run-on takes the batter of an open upper edge, as far as its pull passes
// what loose compost withstands; boards keep what they keep (the constants above
// say how much). No way loses more than one before it, at either end of its band,
// and none more than there is.
func AtRisk(c Compost) ([]Risk, error) {
	sloping, err := c.byRain(c.Top)
	if err != nil {
		return nil, err
	}
	level, err := c.byRain(c.LevelTop)
	if err != nil {
		return nil, err
	}
	level = noMore(level, sloping)
	washed := c.byRunOn()
	rim := geodata.Estimate{Value: rimValue, Low: rimLow, High: rimHigh}
	under := geodata.Estimate{Value: underValue, High: underHigh}
	dugIn := geodata.Estimate{High: dugInHigh}
	said := washedSaid(c.Shear)
	return []Risk{
		c.risk(OpenEdged, sum(sloping, washed), "rain on a top that falls freely, and "+said),
		c.risk(Boarded, sum(part(sloping, rim), part(washed, under)), "boards keep all but splash over the rim, and what is washed through under them"),
		c.risk(SunkenEdged, sum(part(sloping, rim), part(washed, dugIn)), "as boarded, with the way under the boards closed"),
		c.risk(SteppedBays, sum(part(level, rim), part(washed, dugIn)), "as with sunken edges, with tops that hardly fall"),
		c.risk(SheetOver, part(washed, dugIn), "nothing is loosened under a sheet pegged down and dug in at its upper side"),
	}, nil
}

// byRain is what rain on the bed takes, kg.
func (c Compost) byRain(top float64) (geodata.Estimate, error) {
	if !(c.Erosivity.Value > 0 && c.Erodibility.Value > 0 && c.Area > 0 && c.Volume > 0 && c.Density > 0) {
		return geodata.Estimate{}, fmt.Errorf("erosivity, erodibility, area, volume and density must be over 0: %w", ErrRange)
	}
	ls, err := SlopeFactor(top, c.Run, ModerateRill)
	if err != nil {
		return geodata.Estimate{}, err
	}
	// tonnes a hectare are tenths of a kilogram a square metre
	bare := c.Erosivity.Value * c.Erodibility.Value * ls * c.Area / 10
	value := bare * layerValue
	return geodata.Estimate{
		Value: value, Low: math.Min(value/bandBed, bare*layerLow), High: math.Max(value*bandBed, bare*layerHigh),
	}, nil
}

// byRunOn is what run-on takes of an open upper edge, kg.
func (c Compost) byRunOn() geodata.Estimate {
	crest := c.Depth * c.Depth / (2 * math.Tan(batter)) * c.Edge * c.Density
	return geodata.Estimate{
		Value: batterValue * crest * moving(c.Shear.Value), Low: batterLow * crest * moving(c.Shear.Low), High: crest * moving(c.Shear.High),
	}
}

// moving is the share of the batter that a pull takes: none while loose compost
// lies still, all where it is carried away, and evenly between.
func moving(shear float64) float64 {
	return math.Max(0, math.Min(1, (shear-soil.StillPull)/(soil.CarryPull-soil.StillPull)))
}

func washedSaid(shear geodata.Estimate) string {
	switch {
	case shear.High <= soil.StillPull:
		return "run-on too weak to move loose compost"
	case shear.Low >= soil.CarryPull:
		return "run-on that carries off the upper edge"
	}
	return "run-on that may take some of the upper edge"
}

// risk is a loss with its volume and share, kept to what there is.
func (c Compost) risk(w Way, lost geodata.Estimate, because string) Risk {
	lost = noMore(lost, geodata.Exactly(c.Volume*c.Density))
	litres := lost.Times(1000 / c.Density)
	return Risk{Way: w, Lost: lost, Litres: litres, Share: litres.Times(1 / (1000 * c.Volume)), Because: because}
}

func sum(a, b geodata.Estimate) geodata.Estimate {
	return geodata.Estimate{Value: a.Value + b.Value, Low: a.Low + b.Low, High: a.High + b.High}
}

// part is a share, itself uncertain, of an amount.
func part(a, share geodata.Estimate) geodata.Estimate {
	return geodata.Estimate{Value: a.Value * share.Value, Low: a.Low * share.Low, High: a.High * share.High}
}

// noMore keeps an amount within another, end by end.
func noMore(a, limit geodata.Estimate) geodata.Estimate {
	return geodata.Estimate{Value: math.Min(a.Value, limit.Value), Low: math.Min(a.Low, limit.Low), High: math.Min(a.High, limit.High)}
}
