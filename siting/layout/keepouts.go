package layout

import (
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/caution"

	"github.com/paulmach/orb"
)

// Distances kept between a bed and what stands on the plot, m: defaults of
// ours, room to walk, clip and mend.
const (
	ObstacleClear  = 0.5
	HedgeClear     = 1.0
	FenceClear     = 0.5
	ShedClear      = 0.6
	GateClear      = 1.2
	BreakLineClear = 0.3
	MarkClear      = 0.1
	// PathHalf is half the width of a path drawn as a line; a bed may touch
	// the edge of a path.
	PathHalf = 0.3
	// PegReach is how far pegs and boards stand out from a bed's outline.
	PegReach = 0.10
)

// Keepouts lists what the plot's fixtures keep free, in reading order:
// obstacles, no-go areas, paths, gates, heaps, break lines, marks, buried services
// with their clearance, and the root protection areas of trees. clearance is
// the distance to keep from a buried service, m; nil takes the one that the
// cautions ask for. Services and roots are kept PegReach further off, since it
// is the pegs that must stay clear. Septic tanks, soakaways and wells are kept
// at the cautions' distance whatever they are drawn as. Overhead services and
// drawn beds keep nothing free here.
func Keepouts(plot *geodata.Plot, clearance func(geodata.Fixture) float64) []Keepout {
	if clearance == nil {
		clearance = func(f geodata.Fixture) float64 { return caution.Clear(f, plot.Site.Place.Country) }
	}
	var out []Keepout
	for _, f := range plot.Fixtures {
		clear, ok := fixtureClear(f, clearance)
		if caution.Foul(f) {
			clear, ok = math.Max(clear, caution.FoulClearance+PegReach), true
		}
		if ok {
			out = append(out, Keepout{Why: fixtureSaid(f), Shape: f.Shape, Clear: clear})
		}
	}
	return out
}

// fixtureClear is the distance kept from one fixture; ok is false for what
// keeps nothing free.
func fixtureClear(f geodata.Fixture, clearance func(geodata.Fixture) float64) (metres float64, ok bool) {
	switch f.Kind {
	case geodata.NoGoKind:
		return 0, true
	case geodata.ObstacleKind:
		return obstacleClear(f.What), true
	case geodata.TreeKind:
		r, _ := caution.RootRadius(f.StemDiameter)
		return r + PegReach, true
	case geodata.ServiceKind:
		if f.Overhead {
			return 0, false
		}
		return clearance(f) + PegReach, true
	case geodata.PathKind:
		if _, area := f.Shape.(orb.Polygon); area {
			return 0, true
		}
		return PathHalf, true
	case geodata.GateKind, geodata.HeapKind:
		return GateClear, true
	case geodata.BreakLineKind:
		return BreakLineClear, true
	case geodata.MarkKind:
		return MarkClear, true
	}
	return 0, false
}

func obstacleClear(what string) float64 {
	switch what {
	case "hedge":
		return HedgeClear
	case "fence":
		return FenceClear
	case "shed":
		return ShedClear
	}
	return ObstacleClear
}

// fixtureSaid names a fixture in a sentence.
func fixtureSaid(f geodata.Fixture) string {
	what := string(f.Kind)
	switch f.Kind {
	case geodata.NoGoKind:
		what = "no-go area"
	case geodata.BreakLineKind:
		what = "break line"
	case geodata.ObstacleKind:
		if f.What != "" {
			what = f.What
		}
	case geodata.TreeKind:
		what = "roots of the tree"
	case geodata.ServiceKind:
		what = "buried service"
	}
	if f.Name == "" {
		return "the " + what
	}
	return fmt.Sprintf("the %s %q", what, f.Name)
}
