package sitingtest

import (
	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/frame"

	"github.com/paulmach/orb"
)

// weigh sets the other edges beside a bed's own, says what it depends on, and
// cuts a section through it.
func weigh(b *siting.Bed) {
	e := func(v, low, high float64) *geodata.Estimate { return &geodata.Estimate{Value: v, Low: low, High: high} }
	cost, sunken := 58.8, 61.2
	b.MilderEdge = "boarded, with 20 mm less compost"
	b.Worth = "yes: the ground falls 9.1 % (over 5 %) across the bed. It takes 3 boards and 6 pegs for 61.20 GBP, for about 7 years: 8.74 GBP a year"
	b.Options = []siting.EdgeOption{
		{Edge: frame.OpenEdged, Stands: true, Against: "the ground falls 9.1 % (over 5 %) across the bed", CompostAtRisk: e(41, 20, 83), Compost: e(.61, .58, .65), Fill: 120},
		{Edge: frame.Boarded, Stands: true, Against: "water runs on to it 2.4 mm (over 2 mm) deep", CompostAtRisk: e(6, 2, 14), Compost: e(.61, .58, .65), Fill: 120,
			Boards: 3, BoardLength: 10.8, Pegs: 6, PegDepth: 260, Life: e(9, 6, 12), Cost: &cost},
		{Edge: frame.SunkenEdges, Chosen: true, Stands: true, CompostAtRisk: e(3, 1, 8), Compost: e(.61, .58, .65), Fill: 120,
			Boards: 3, BoardLength: 10.8, Pegs: 6, PegDepth: 200, Digging: 33, Life: e(7, 5, 10), Cost: &sunken},
		{Edge: frame.Stepped, Against: "the bed is too narrow to step: bays would be under 400 mm wide or rise over 200 mm"},
	}
	b.Sensitivity = &siting.Sensitivity{
		Mildest: frame.Boarded, Gravest: frame.SunkenEdges, Matters: "water running on",
		Embedment: e(200, 180, 240), Factor: e(2.04, 1.4, 3.1), Retained: e(184, 164, 204), SlipFactor: *e(1.82, 1.5, 2.1),
		Effects: []siting.Effect{
			{Input: "strength of the ground", Range: "10 to 20 kPa", EdgeLow: b.Edge, EdgeHigh: b.Edge, Depth: e(200, 180, 240), Factor: e(2.04, 1.4, 3.1), Retained: e(184, 184, 184), Slip: *e(1.82, 1.7, 1.9)},
			{Input: "water running on", Range: "0.9 to 2.6 mm deep", EdgeLow: frame.Boarded, EdgeHigh: b.Edge, Depth: e(200, 200, 200), Factor: e(2.04, 2.04, 2.04), Retained: e(184, 184, 184), Slip: *e(1.82, 1.82, 1.82)},
		},
	}
	b.Pegs.Point, b.Pegs.Life, b.Pegs.CodeDepth = 60, e(4.5, 3, 6), 680
	b.Build.BoardStress, b.Build.BoardSag, b.Build.Digging = .42, *e(6.3, 2.1, 6.3), 33
	b.Section = &siting.Section{
		Length: 1.2, Ground: []orb.Point{{-.4, 11.24}, {0, 11.2}, {1.2, 11.09}, {1.6, 11.05}},
		Fill: [][]orb.Point{{{0, 11.32}, {1.2, 11.27}, {1.2, 11.09}, {0, 11.2}}},
		Boards: []siting.SectionBoard{
			{Name: "uphill board", From: 0, To: .038, Bottom: 11.15, Top: 11.3, Joints: []float64{}},
			{Name: "downhill board", From: 1.162, To: 1.2, Bottom: 11.04, Top: 11.265, Joints: []float64{}, Retained: 180},
		},
		Pegs: []siting.SectionPeg{
			{From: -.05, To: 0, Top: 11.275, Bottom: 11, Tip: 10.94},
			{From: 1.2, To: 1.25, Top: 11.24, Bottom: 10.89, Tip: 10.83},
		},
	}
}
