package walk

import (
	"math"

	"crossfall/geodata"
	"crossfall/terrain/surface"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// Gap is where the ground is known least.
type Gap struct {
	At    orb.Point `json:"at"`
	Sigma float64   `json:"height_error_mm"` // one standard deviation of the ground's height there
	Away  float64   `json:"nearest_reading_m"`
}

// gapNodes is about how many places along the plot's longer side are looked at.
const gapNodes = 12

// widestGap is the place inside the boundary where the fitted height is least
// sure: where a reading would tell most of the ground as a whole (McBratney,
// Webster and Burgess 1981 plan surveys by this variance, from memory).
func widestGap(p *geodata.Plot, fit *surface.Fit) *Gap {
	if len(p.Boundary) == 0 {
		return nil
	}
	b := p.Boundary.Bound()
	cell := math.Max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]) / gapNodes
	if !(cell > 0) {
		return nil
	}
	var worst *Gap
	for y := b.Min[1] + cell/2; y < b.Max[1]; y += cell {
		for x := b.Min[0] + cell/2; x < b.Max[0]; x += cell {
			q := orb.Point{x, y}
			if !planar.PolygonContains(p.Boundary, q) {
				continue
			}
			sd := math.Sqrt(math.Max(0, fit.HeightCovariance(q, q))) * 1000
			if worst == nil || sd > worst.Sigma*(1+1e-9) {
				worst = &Gap{At: q, Sigma: sd, Away: nearestReading(p.Spots, q)}
			}
		}
	}
	return worst
}

func nearestReading(spots []geodata.SpotHeight, q orb.Point) float64 {
	d := math.Inf(1)
	for _, s := range spots {
		d = math.Min(d, planar.Distance(s.At, q))
	}
	return d
}
