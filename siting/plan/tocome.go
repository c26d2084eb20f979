package plan

import (
	"crossfall/siting"

	"github.com/paulmach/orb"
)

var (
	toComeHatch = Style{Stroke: Grey, Width: .12, Class: "to-come-hatch"}
	toComeEdge  = Style{Stroke: Grey, Width: .12, Dash: []float64{.6, .9}, Class: "to-come"}
)

// toComeAngles are those of the hatches of one tall thing after another, degrees.
var toComeAngles = [...]float64{20, -20, 70}

// toCome hatches the ground on which a tall thing that is still to come would leave
// the beds their sun.
func (p *painter) toCome(things []siting.ToCome) {
	for i, t := range things {
		var rings [][]orb.Point
		for _, r := range t.Rings {
			rings = append(rings, p.ground(r))
		}
		if len(rings) == 0 {
			continue
		}
		angle := toComeAngles[i%len(toComeAngles)]
		p.hatching(rings, angle, 2.2, toComeHatch)
		for _, r := range rings {
			p.ring(areaLayer, r, toComeEdge)
		}
		p.use(entry{rank: rankTree, text: t.What + " to come: here it leaves the beds their sun", sample: hatchSample(toComeEdge, toComeHatch, angle, 2.2)})
	}
}
