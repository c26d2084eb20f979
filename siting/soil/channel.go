package soil

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// Section is the cross-section of an open channel: a flat bottom and two sides.
type Section struct {
	Bottom float64 // width, m; 0: a V
	Side   float64 // metres out to a metre up
}

// Normal is steady even flow in a section.
type Normal struct {
	Depth, Area, Radius float64 // m, m2, m
	Speed, Flow         float64 // m/s, m3/s
	Froude              float64 // speed over that of a small wave; near 1 the surface breaks up
	Shear               float64 // greatest pull on the bottom, Pa
}

// At is the flow of a depth (m) on a fall by Manning's formula: A = (b + z y) y,
// wetted edge b + 2 y sqrt(1+z2), V = R^(2/3) sqrt(S) / n, Froude V / sqrt(g A/T)
// with T the width of the surface, pull 9810 y S.
func (s Section) At(depth, fall, roughness float64) Normal {
	area := (s.Bottom + s.Side*depth) * depth
	edge := s.Bottom + 2*depth*math.Sqrt(1+s.Side*s.Side)
	radius := area / edge
	speed := math.Pow(radius, 2./3) * math.Sqrt(fall) / roughness
	top := s.Bottom + 2*s.Side*depth
	return Normal{
		Depth: depth, Area: area, Radius: radius, Speed: speed, Flow: speed * area,
		Froude: speed / math.Sqrt(Gravity*area/top), Shear: sheetWaterWeight * depth * fall,
	}
}

// deepestChannel is as deep as a garden channel is looked for, m.
const deepestChannel = 1.0

// Carrying is the even flow of so many m3/s, by halving: flow rises with depth.
// ok is false when it would stand over 1 m deep, or an argument is not over 0.
func (s Section) Carrying(flow, fall, roughness float64) (n Normal, ok bool) {
	if !(flow > 0 && fall > 0 && roughness > 0 && s.Bottom >= 0 && s.Side >= 0 && s.Bottom+s.Side > 0) ||
		!(s.At(deepestChannel, fall, roughness).Flow >= flow) {
		return Normal{}, false
	}
	low, high := 0.0, deepestChannel
	for range 60 {
		if middle := (low + high) / 2; s.At(middle, fall, roughness).Flow < flow {
			low = middle
		} else {
			high = middle
		}
	}
	return s.At(high, fall, roughness), true
}

// A cut-off channel in turf: sides of 1 in 3, which a mower passes. Roughness by
// the state of the grass, long for the depth and short for the pull (open
// channels, from memory); defaults of ours within the usual ranges.
const (
	channelSide    = 3.0
	longGrass      = 0.15
	shortGrass     = 0.03
	mostFroude     = 0.8
	leastFreeboard = 0.1 // m; or a third of the depth (common practice, no source)
	// The falls between which a garden channel neither silts up nor cuts in, and
	// that over which it needs check dams (common practice, no source).
	flattestChannel = 0.005
	steepestChannel = 0.02
	checkDams       = 0.03
	// What short grass withstands, Pa: retardance class D to E of HEC-15, 2005,
	// from memory.
	grassPull = 16.8
)

// Channel is a cut-off channel.
type Channel struct {
	Fall  float64          // along it, m per m
	Flow  geodata.Estimate // L/s that it is to carry
	Depth float64          // to dig, freeboard included, m
	Width float64          // across the top, m
	Water geodata.Estimate // depth of water, m
	Speed float64          // with short grass, m/s
	Shear float64          // with short grass, Pa
	Notes []string
}

// SizeChannel sizes a grassed V with sides of 1 in 3 on a fall for the upper end
// of a flow (L/s): deep enough with long grass, and not cutting in with short.
// The fall is brought to 0.5 to 2 %, with a note; flow that would stand deeper
// than 1 m is ErrNoChannel.
func SizeChannel(flow geodata.Estimate, fall float64) (Channel, error) {
	c := Channel{Fall: math.Max(flattestChannel, math.Min(steepestChannel, fall)), Flow: flow, Notes: []string{}}
	if fall > checkDams {
		c.Notes = append(c.Notes, "the ground along it falls more than 3 %: lead it closer to the contour, or set check dams across it")
	}
	v := Section{Side: channelSide}
	depth := func(q, n float64) (Normal, error) {
		at, ok := v.Carrying(q/1000, c.Fall, n)
		if !ok {
			return at, fmt.Errorf("%.3g litres a second: %w", q, ErrNoChannel)
		}
		return at, nil
	}
	deep, err := depth(flow.High, longGrass)
	if err != nil {
		return Channel{}, err
	}
	middle, err := depth(flow.Value, longGrass)
	if err != nil {
		return Channel{}, err
	}
	quick, err := depth(flow.High, shortGrass)
	if err != nil {
		return Channel{}, err
	}
	c.Water = geodata.Estimate{Value: middle.Depth, Low: quick.Depth, High: deep.Depth}
	if shallow, ok := v.Carrying(flow.Low/1000, c.Fall, shortGrass); ok {
		c.Water.Low = shallow.Depth
	}
	c.Depth = roundUp(deep.Depth+math.Max(leastFreeboard, deep.Depth/3), 0.01)
	c.Width = 2 * channelSide * c.Depth
	c.Speed, c.Shear = quick.Speed, quick.Shear
	c.warn(quick)
	return c, nil
}

// warn notes what the swiftest state asks for.
func (c *Channel) warn(quick Normal) {
	if quick.Froude >= mostFroude {
		c.Notes = append(c.Notes, "the water would run so fast that its surface breaks up: lay it on less fall")
	}
	if quick.Shear > grassPull {
		c.Notes = append(c.Notes, fmt.Sprintf("it pulls %.0f pascals, more than the %.1f pascals that short grass withstands: line it with stone, or keep the grass long", quick.Shear, grassPull))
	}
}

func roundUp(v, step float64) float64 { return math.Ceil(v/step-1e-9) * step }
