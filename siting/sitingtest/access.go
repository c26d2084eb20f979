package sitingtest

import (
	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/access"

	"github.com/paulmach/orb"
)

// gateAt is the gate of Sloping.
var gateAt = orb.Point{3.85, 0}

// carrying is how compost gets to the beds of Sloping.
func carrying() siting.Carrying {
	return siting.Carrying{
		From:        []siting.CarryFrom{{Said: `the gate "gate"`, At: gateAt}},
		BarrowWidth: .6, Steepest: 8.3, Cell: .25,
		Walked: &geodata.Estimate{Value: 1240, Low: 1180, High: 1330}, Climbed: &geodata.Estimate{Value: 31, Low: 27, High: 36},
		Notes: []string{"ways are looked for in squares of 0.25 m, for a barrow of 0.60 m"},
	}
}

// reached gives beds their ways: by barrow, by barrow to and fro, on foot for the
// last of it, and not at all.
func reached(beds []siting.Bed) {
	route := func(points ...orb.Point) []siting.Corner {
		var out []siting.Corner
		for _, p := range points {
			out = append(out, siting.Corner{p[0], p[1], heightAt(p)})
		}
		return out
	}
	way := func(by access.Means, length float64, points ...orb.Point) *siting.BedAccess {
		return &siting.BedAccess{
			By: by, From: `the gate "gate"`, Said: "by barrow", Route: route(points...), Length: length,
			Climb: geodata.Estimate{Value: .31, Low: .26, High: .36}, SteepestRise: geodata.Estimate{Value: 7.4, Low: 6.1, High: 8.7},
			Loads: geodata.Estimate{Value: 14, Low: 13, High: 15}, Push: geodata.Estimate{Value: 72, Low: 35, High: 130}, Advice: []string{},
		}
	}
	beds[0].Access = way(access.ByBarrow, 5.1, gateAt, orb.Point{2.6, 8.3})
	beds[1].Access = way(access.ByBarrow, 6.4, gateAt, orb.Point{1.8, 6.4}, orb.Point{3.6, 6.1})
	beds[1].Access.Hairpins = 2
	beds[1].Access.Advice = []string{"the way goes to and fro and turns back twice: make each turn level, 1.2 m or longer"}
	beds[2].Access = way(access.OnFoot, 11.2, gateAt, orb.Point{8.4, 5})
	beds[2].Access.ByHand, beds[2].Access.Gap, beds[2].Access.InTheWay = 2.4, 480, []string{"Bed 2", Odd}
	beds[2].Access.Said = "by barrow for 9 m from the gate, then 2 m on foot past Bed 2 and " + Odd + ", where there is 0.48 m of room"
	beds[3].Access = &siting.BedAccess{
		By: access.NoWay, Said: "nobody gets to it: the hedge is in the way", InTheWay: []string{"the hedge"},
		Loads: geodata.Exactly(10), Route: []siting.Corner{}, Advice: []string{},
	}
}
