package plan

import (
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"
)

var (
	channelStyle = Style{Stroke: Accent, Width: .9, Dash: []float64{3, .8, .8, .8}, Class: "channel"}
	trenchStyle  = Style{Stroke: Accent, Width: .6, Dash: []float64{.8, .8}, Class: "trench"}
	soakStyle    = Style{Stroke: Accent, Width: .5, Class: "soakaway"}
)

// drains draws the cut-off channels above beds, the trenches that would drain
// hollows and the place of a soakaway.
func (p *painter) drains(ds []siting.Drain) {
	for _, d := range ds {
		pts := p.ground(d.Points)
		switch {
		case d.Kind == siting.CutOffChannel && len(pts) > 1:
			for _, part := range clip.LineString(p.sheet.area, orb.LineString(pts)) {
				p.add(waterLayer, part, false, channelStyle)
				p.labels.markLine(part)
				p.use(entry{rank: rankTurned, text: "cut-off channel to dig", sample: lineSample(channelStyle)})
			}
		case d.Kind == siting.DrainTrench && len(pts) > 1:
			for _, part := range clip.LineString(p.sheet.area, orb.LineString(pts)) {
				p.add(waterLayer, part, false, trenchStyle)
				p.labels.markLine(part)
				p.use(entry{rank: rankTurned, text: "trench that would drain a hollow", sample: lineSample(trenchStyle)})
			}
		case d.Kind == siting.Soakaway && len(pts) == 1:
			const half = 2.0 // mm
			c := pts[0]
			box := []orb.Point{{c[0] - half, c[1] - half}, {c[0] + half, c[1] - half}, {c[0] + half, c[1] + half}, {c[0] - half, c[1] + half}}
			p.add(waterLayer, box, true, soakStyle)
			p.add(waterLayer, []orb.Point{box[0], box[2]}, false, soakStyle)
			p.beside(c, half+.8, siting.Soakaway, waterText, false)
			p.use(entry{rank: rankTurned, text: "place for a soakaway", sample: boxSample(soakStyle)})
		}
	}
}
