package firstwinter

import (
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/caution"
	"crossfall/siting/takeoff"
)

// WetLoad is what may be carried to one bed: the compost in one barrow load, kg,
// that the guideline forces for keeping a load moving allow, from that for women
// to that for men (Health and Safety Executive, INDG143).
type WetLoad struct {
	Bed  string           `json:"bed"`
	Rise float64          `json:"rise_percent"` // of the way, at its steepest
	Dry  geodata.Estimate `json:"dry_kg"`       // on a lawn
	Wet  geodata.Estimate `json:"wet_kg"`       // on wet, soft ground
	Said string           `json:"said"`
}

// wetLoads says it for every bed to which a way is known. Filled beds need no
// barrow in winter, so beds whose way is not known are left out.
func wetLoads(in Input) []WetLoad {
	out := []WetLoad{}
	for _, b := range in.Beds {
		if b.Way == nil {
			continue
		}
		l := WetLoad{Bed: b.Name, Rise: 100 * *b.Way, Dry: allowed(in, *b.Way, takeoff.RollingLawn), Wet: allowed(in, *b.Way, takeoff.RollingSoft)}
		switch {
		case *b.Way > caution.SlipperySlope:
			l.Said = fmt.Sprintf("the way rises %.0f %%: no barrow on it while the grass is wet", l.Rise)
		case l.Wet.High <= 0:
			l.Said = fmt.Sprintf("the way rises %.0f %%: on wet ground an empty barrow alone passes the guideline", l.Rise)
		default:
			l.Said = fmt.Sprintf("the way rises %.0f %%: on wet ground no more than %.0f to %.0f kg of compost in a load, where %.0f to %.0f kg go when it is dry (women to men; a full load is about %.0f kg)",
				l.Rise, l.Wet.Low, l.Wet.High, l.Dry.Low, l.Dry.High, in.Load.Value)
		}
		out = append(out, l)
	}
	return out
}

// allowed is the compost, kg, that goes up a gradient beside the barrow.
func allowed(in Input, gradient, mu float64) geodata.Estimate {
	net := func(force float64) float64 { return math.Max(0, takeoff.LargestMass(force, gradient, mu)-in.Barrow) }
	low, high := net(caution.PushWoman), net(caution.PushMan)
	return geodata.Estimate{Value: (low + high) / 2, Low: low, High: high}
}
