package siting

import (
	"math"

	"crossfall/geodata"
	"crossfall/siting/frame"
)

// Sensitivity is how a bed's edge stands up to what is not known of ground
// strength, water and fill, one at a time.
type Sensitivity struct {
	Firm    bool        `json:"firm"`    // the class holds at the ends of every range
	Mildest frame.Class `json:"mildest"` // over all ranges
	Gravest frame.Class `json:"gravest"`
	Matters string      `json:"matters_most"` // the input that does most
	// Figures of the frame as designed; null without pegs.
	Embedment  *geodata.Estimate `json:"embedment_needed_mm"`
	Factor     *geodata.Estimate `json:"pegs_factor_winter"`
	Retained   *geodata.Estimate `json:"retained_mm"`
	SlipFactor geodata.Estimate  `json:"slip_factor_winter"`
	Effects    []Effect          `json:"effects"`
}

// Effect is what one input does over its range.
type Effect struct {
	Input    string            `json:"input"`
	Range    string            `json:"range"`
	EdgeLow  frame.Class       `json:"edge_at_low"`
	EdgeHigh frame.Class       `json:"edge_at_high"`
	Depth    *geodata.Estimate `json:"embedment_needed_mm"`
	Factor   *geodata.Estimate `json:"pegs_factor_winter"`
	Retained *geodata.Estimate `json:"retained_mm"`
	Slip     geodata.Estimate  `json:"slip_factor_winter"`
}

// sensitivity weighs the edge of a bed; nil where the place itself is refused.
func (j judge) sensitivity(d decision) *Sensitivity {
	if d.refused != "" {
		return nil
	}
	s := frame.Sensitive(j.chosenCase(d), j.sheetRange(d))
	out := &Sensitivity{
		Firm: s.Firm, Mildest: s.Mildest, Gravest: s.Gravest, Matters: s.Matters, SlipFactor: s.SlipFactor,
		Embedment: ofPegs(d, s.Embedment, 1000), Factor: ofPegs(d, s.Factor, 1), Retained: ofPegs(d, s.Retained, 1000),
		Effects: []Effect{},
	}
	for _, e := range s.Effects {
		out.Effects = append(out.Effects, Effect{
			Input: e.Input, Range: e.Range, EdgeLow: e.Low, EdgeHigh: e.High, Slip: e.SlipFactor,
			Depth: ofPegs(d, e.Embedment, 1000), Factor: ofPegs(d, e.Factor, 1), Retained: ofPegs(d, e.Retained, 1000),
		})
	}
	return out
}

// ofPegs is a figure in the Assessment's unit; nil for a bed without pegs.
func ofPegs(d decision, e geodata.Estimate, scale float64) *geodata.Estimate {
	if d.chosen.Pegs == nil {
		return nil
	}
	e = e.Times(scale)
	return &e
}

// sheetRange is the band of the depth of water running on, m. The band of
// RunOnTo has every input at its worst at once; here their shares are put
// together as those of independent errors, by the root of the sum of their
// squares, on the logarithm of the depth (q n / sqrt S)^0.6.
func (j judge) sheetRange(d decision) geodata.Estimate {
	f := d.runOn.flow
	y := f.Depth.Value
	if y <= 0 {
		return geodata.Estimate{}
	}
	up, down := 0.0, 0.0
	share := func(e geodata.Estimate, power float64) {
		if e.Low <= 0 || e.Value <= 0 {
			return
		}
		high, low := power*math.Log(e.High/e.Value), power*math.Log(e.Low/e.Value)
		up += math.Pow(math.Max(high, low), 2)
		down += math.Pow(math.Min(high, low), 2)
	}
	share(f.Coefficient, 0.6)
	share(j.rate, 0.6)
	share(d.runOn.length, 0.6)
	share(f.Roughness, 0.6)
	share(d.ground.Slope, -0.3)
	return geodata.Estimate{Value: y, Low: y * math.Exp(-math.Sqrt(down)), High: y * math.Exp(math.Sqrt(up))}
}
