package soil

import (
	"errors"
	"fmt"
	"math"

	"crossfall/geodata"
)

// Errors of drains that cannot be made.
var (
	ErrNoChannel  = errors.New("more water than a garden channel carries")
	ErrNoSoakaway = errors.New("no soakaway of a size for a garden takes this water")
)

// Pit is a soakaway: a pit or trench filled with rubble.
type Pit struct {
	Length, Width, Depth float64 // m, under the inlet
	Voids                float64 // share of the filling that water takes: rubble .3, crates .95
}

// Half is the side area to half the depth, m2, through which water soaks: the
// base is left out, since it silts up (BRE Digest 365, 2016).
func (p Pit) half() float64 { return 2 * (p.Length + p.Width) * p.Depth / 2 }

// Holds is the water that the pit holds, m3.
func (p Pit) Holds() float64 { return p.Length * p.Width * p.Depth * p.Voids }

// Duty is what a soakaway must store.
type Duty struct {
	Minutes float64 // the duration that asks for most
	Inflow  float64 // m3
	Outflow float64 // m3 that soak away meanwhile
	Storage float64 // m3
	// HalfEmpty is the time for half of the storage to soak away, h; it must not
	// pass 24.
	HalfEmpty float64
}

// soakDurations are the durations that are tried, minutes.
var soakDurations = []float64{10, 15, 30, 60, 120, 240, 360, 600, 1440, 2880, 5760}

// mostHalfEmpty is BRE Digest 365's limit, h.
const mostHalfEmpty = 24

// Needed is the greatest storage that rain on a drained area (m2) asks of the
// pit over all durations: inflow area times depth, less what soaks through the
// sides at a rate in m/s (BRE Digest 365, 2016). depth gives the rain, mm, of so
// many minutes; a duration for which it has none is left out.
func (p Pit) Needed(area, soaks float64, depth func(minutes float64) (float64, bool)) Duty {
	var worst Duty
	for _, minutes := range soakDurations {
		mm, ok := depth(minutes)
		if !ok {
			continue
		}
		in, out := area*mm/1000, p.half()*soaks*minutes*60
		if s := in - out; worst.Minutes == 0 || s > worst.Storage {
			worst = Duty{Minutes: minutes, Inflow: in, Outflow: out, Storage: s}
		}
	}
	if p.half()*soaks > 0 {
		worst.HalfEmpty = 0.5 * math.Max(0, worst.Storage) / (p.half() * soaks) / 3600
	}
	return worst
}

// A trench of a spade's width and no deeper than one is safe to stand in, filled
// with rubble; defaults of ours.
const (
	trenchWidth = 0.6
	trenchDepth = 1.0
	trenchVoids = 0.3
	longTrench  = 40.0
	trenchStep  = 0.1
)

// SizeSoakaway is the shortest rubble trench of 0.6 by 1.0 m, to a tenth of a
// metre, that stores what rain on a drained area asks of it and is half empty
// within 24 hours; ErrNoSoakaway over 40 m.
func SizeSoakaway(area, soaks float64, depth func(minutes float64) (float64, bool)) (Pit, Duty, error) {
	if area > 0 && soaks > 0 {
		for n := 10; float64(n)*trenchStep <= longTrench; n++ {
			p := Pit{Length: float64(n) * trenchStep, Width: trenchWidth, Depth: trenchDepth, Voids: trenchVoids}
			if d := p.Needed(area, soaks, depth); d.Minutes > 0 && d.Storage <= p.Holds() && d.HalfEmpty <= mostHalfEmpty {
				return p, d, nil
			}
		}
	}
	return Pit{}, Duty{}, fmt.Errorf("%.0f m2 at %.2g m/s: %w", area, soaks, ErrNoSoakaway)
}

// PitRate is the rate at which a test pit soaks, m/s: the volume between three
// quarters and a quarter of its depth, over the area of its sides to half that
// depth and its base, and the seconds that it took (BRE Digest 365, 2016; the
// slowest of three fillings counts).
func PitRate(length, width, high, low, seconds float64) float64 {
	sides := 2 * (length + width) * (high - low)
	return length * width * (high - low) / ((sides + length*width) * seconds)
}

// SoakOrder is the order of the rate at which water soaks into a texture, m/s
// (common practice, no source); a test pit on the spot must settle it. ok is
// false where soakaways do not work, and where the texture is not known.
func SoakOrder(t Texture) (rate geodata.Estimate, ok bool) {
	order := map[Texture]float64{Sand: 1e-4, LoamySand: 3e-5, SandyLoam: 1e-5, Loam: 3e-6, SiltLoam: 3e-6}
	v, ok := order[t]
	return geodata.Estimate{Value: v, Low: v / 10, High: v * 10}, ok
}
