package frame

import (
	"fmt"
	"math"

	"crossfall/siting/soil"
)

// Case is one bed on its ground. Lengths m, slopes ratios.
type Case struct {
	Length, Width float64 // in plan, over 0
	Fill          float64 // wished depth of compost at the highest corner, over 0
	// Slope is the steepest fall of the ground, Across and Along its parts over
	// the short and the long side, all 0 or more. A Slope of less than the parts
	// make together is raised to that; a greater one is kept, so that each may
	// stand at the unfavourable end of its own band.
	Slope, Across, Along float64
	// Bend is how much deeper than on a plane of those falls the compost stands at
	// the worst place of the bed, because the ground under it is curved, m. Steps
	// are not taken to lessen it.
	Bend       float64
	Ground     soil.Ground // default soil.DefaultWord
	Turf       bool        // roots hold the wet topsoil
	Cohesion   *float64    // measured, drained, wet topsoil, kPa; nil: not known
	SheetDepth float64     // of water that runs on to the upper edge, m
	// Flow is all the water that runs on, litres a second, and Above the length of
	// slope that it comes from, m: they ask for a channel and do not change the class.
	Flow, Above float64
	// Refused is a reason of the place not to build, such as a service or
	// standing water; "" for none.
	Refused string

	DepthCap         float64   // greatest embedment; default 0.30, and never over 0.45
	PegSize          float64   // side of a square peg, 0.02 to 0.15; default 0.05
	PegSpacing       float64   // widest spacing to try; default 1.8, which it must not exceed
	Roughness        float64   // standard deviation of the ground along a board; default 0.006, mown lawn
	BoardHeights     []float64 // on sale; default 0.15, 0.175, 0.20 and 0.225
	BoardThicknesses []float64 // on sale; default 0.025
	LongestBoard     float64   // on sale: longer sides are joined at a peg; default 4.8
	Durability       int       // EN 350 class of the timber, 1 to 5; default 4
	LifeWished       float64   // years; default 5
	Grade            Grade     // of boards and pegs; default Ungraded
	Material         soil.Fill // default screened compost

	// standing and pressure take the place of the winter's water behind the
	// boards and of its pore pressure where they are over 0: for weighing what
	// they do.
	standing, pressure float64
	// felt is the strength that the ground's word stands for, kPa, where Ground
	// is put at an end of its band; 0: that of Ground.
	felt float64
	// quiet is set where only the class is asked for, so that no reasons are put
	// into words.
	quiet bool
	// grounds is the passive coefficient last asked for.
	grounds remembered
}

// Defaults of ours, except where common practice is named.
const (
	DefaultDepthCap   = 0.30 // services may lie deeper
	LocatedDepthCap   = 0.45 // all services located; as deep as a hand drives a wooden peg
	DefaultPegSize    = 0.05 // common practice
	DefaultPegSpacing = 1.8  // common practice: both ends and the middle of a 3.6 m side
	DefaultRoughness  = 0.006
	DefaultThickness  = 0.025
	DefaultLongest    = 4.8
	DefaultDurability = 4
	DefaultLife       = 5.0
)

// settled is the case with its defaults filled in, or what is wrong with it.
func (c Case) settled() (Case, error) {
	set(&c.DepthCap, DefaultDepthCap)
	c.DepthCap = math.Min(c.DepthCap, LocatedDepthCap)
	set(&c.PegSize, DefaultPegSize)
	set(&c.PegSpacing, DefaultPegSpacing)
	set(&c.Roughness, DefaultRoughness)
	set(&c.LongestBoard, DefaultLongest)
	set(&c.LifeWished, DefaultLife)
	if len(c.BoardHeights) == 0 {
		c.BoardHeights = []float64{0.15, 0.175, 0.20, 0.225}
	}
	if len(c.BoardThicknesses) == 0 {
		c.BoardThicknesses = []float64{DefaultThickness}
	}
	if c.Durability == 0 {
		c.Durability = DefaultDurability
	}
	if c.Grade.Bending == 0 {
		c.Grade = Ungraded()
	}
	if c.Material == (soil.Fill{}) {
		c.Material, _ = soil.FillNamed(soil.DefaultFill)
	}
	if c.Ground == (soil.Ground{}) {
		c.Ground, _ = soil.Named(soil.DefaultWord)
	}
	if c.Slope == 0 || c.Slope < math.Hypot(c.Across, c.Along) {
		c.Slope = math.Hypot(c.Across, c.Along)
	} else if c.Across == 0 && c.Along == 0 {
		c.Across = c.Slope
	}
	return c, c.check()
}

func set(v *float64, byDefault float64) {
	if *v == 0 {
		*v = byDefault
	}
}

// check refuses what no bed can be.
func (c Case) check() error {
	for _, r := range []struct {
		what        string
		v, min, max float64
	}{
		{"length", c.Length, 0.1, 100},
		{"width", c.Width, 0.1, 20},
		{"depth of compost", c.Fill, 0.01, 2},
		{"fall", c.Slope, 0, 10},
		{"fall across", c.Across, 0, 10},
		{"fall along", c.Along, 0, 10},
		{"bend of the ground", c.Bend, 0, 10},
		{"depth of water running on", c.SheetDepth, 0, 10},
		{"water running on", c.Flow, 0, 1e6},
		{"slope above", c.Above, 0, 1e6},
		{"greatest embedment", c.DepthCap, 0.05, LocatedDepthCap},
		{"side of a peg", c.PegSize, 0.02, 0.15},
		{"spacing of pegs", c.PegSpacing, 0.3, DefaultPegSpacing},
		{"roughness of the ground", c.Roughness, 0, 0.5},
		{"longest board on sale", c.LongestBoard, 0.1, 100},
		{"durability class", float64(c.Durability), 1, 5},
		{"life wished, years,", c.LifeWished, 0, 100},
	} {
		if !(r.v >= r.min && r.v <= r.max) { // also refuses what is not a number
			return fmt.Errorf("the %s is %v; it must lie between %v and %v", r.what, r.v, r.min, r.max)
		}
	}
	return c.checkMaterials()
}

// checkMaterials refuses ground, fill and boards that no formula is good for.
func (c Case) checkMaterials() error {
	if c.Cohesion != nil && !(*c.Cohesion >= 0 && *c.Cohesion <= 1000) {
		return fmt.Errorf("the cohesion of the topsoil is %v kPa; it must lie between 0 and 1000", *c.Cohesion)
	}
	if g := c.Ground; g.Clay && !(g.UndrainedLow >= 1 && g.UndrainedLow <= g.Undrained && g.Undrained <= g.UndrainedHigh) {
		return fmt.Errorf("the strength of the ground, %v kPa between %v and %v, cannot be used", g.Undrained, g.UndrainedLow, g.UndrainedHigh)
	}
	if g := c.Ground; !g.Clay && !(g.UnitWeight > 0 && g.FrictionLow > math.Atan(noBuildSlope) &&
		g.FrictionLow <= g.FrictionAngle && g.FrictionAngle <= g.FrictionHigh) {
		return fmt.Errorf("the friction of the ground, %s between %s and %s, or its unit weight cannot be used",
			degrees(g.FrictionAngle), degrees(g.FrictionLow), degrees(g.FrictionHigh))
	}
	if m := c.Material; !(m.FrictionAngle > math.Atan(topAcross) && m.Moist > 0 && m.Wet > 0 && m.Saturated > soil.WaterWeight) {
		return fmt.Errorf("the weights or the friction of the fill %q cannot be used", m.Word)
	}
	for _, h := range c.BoardHeights {
		if !(h >= 0.05 && h <= 1) {
			return fmt.Errorf("a board on sale is %v m high; it must lie between 0.05 and 1", h)
		}
	}
	for _, t := range c.BoardThicknesses {
		if !(t >= 0.01 && t <= 0.2) {
			return fmt.Errorf("a board on sale is %v m thick; it must lie between 0.01 and 0.2", t)
		}
	}
	return nil
}

// winter is the load case that boards and pegs are designed for.
func (c *Case) winter() LoadCase {
	lc := Winter(c.Material)
	if c.standing > 0 {
		lc.Water, lc.PorePressure = c.standing, c.pressure
	}
	return lc
}

// tooSoft says whether the ground is one that pegs alone are never trusted in. It
// goes by the word for the ground and not by the ends of its band.
func (c *Case) tooSoft() bool {
	strength := c.felt
	set(&strength, c.Ground.Undrained)
	return c.Ground.Clay && strength < softest
}

// wedge is the bed's fill at a depth, in so many bays.
func (c *Case) wedge(fill float64, across, along int) Wedge {
	w := Wedge{
		Length: c.Length, Width: c.Width, Fill: fill, Across: c.Across, Along: c.Along,
		BaysAcross: across, BaysAlong: along, Bend: c.Bend,
	}
	w.TopAcross, w.TopAlong = TopSlopes(c.Across, c.Along)
	return w
}

// shares are the parts of a pull down the slope that go across and along.
func (c *Case) shares() (across, along float64) {
	s := math.Hypot(c.Across, c.Along)
	if s == 0 {
		return 1, 0
	}
	return c.Across / s, c.Along / s
}

// offContour is the angle between the long side and the contour, radians.
func (c *Case) offContour() float64 {
	_, along := c.shares()
	return math.Asin(math.Min(1, along))
}

// leastFill is the least depth to which compost is cut back, m; a default of
// ours.
const leastFill = 0.10

// fills are the depths to try, from the wished one down in 10 mm steps.
func (c *Case) fills() []float64 {
	out := []float64{c.Fill}
	for n := 1; ; n++ {
		f := math.Round(c.Fill*1e6)/1e6 - 0.01*float64(n)
		if f < leastFill-tiny {
			return out
		}
		out = append(out, math.Round(f*1e6)/1e6)
	}
}

// spacings are the peg spacings to try, widest first.
func (c *Case) spacings() []float64 {
	out := []float64{c.PegSpacing}
	for _, s := range []float64{1.8, 1.2, 0.9, 0.6} {
		if s < c.PegSpacing-tiny {
			out = append(out, s)
		}
	}
	return out
}
