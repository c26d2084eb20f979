package access_test

import (
	"math"
	"testing"

	"crossfall/siting/access"
	"crossfall/siting/bed"

	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// On steep ground a barrow that was turned on the spot is pushed on for its own
// length at the least before it is turned again or stands at the bed.
func TestLegsAreAsLongAsABarrow(t *testing.T) {
	for _, slope := range []float64{0.12, 0.15, 0.20, 0.25, 0.30} {
		for x := 2.5; x < 14; x += 1.3 {
			for _, y := range []float64{4, 7.3, 13} {
				p := plot(16, 16, gate(8, 0))
				g := access.NewGround(p, plane{north: slope}, nil, access.Limits{})
				w := g.Ways([]bed.Bed{bedAt("Bed", x, y)})[0]
				require.Equal(t, access.ByBarrow, w.Means)
				leg, sharp := 0.0, false
				for i := 1; i < len(w.Points); i++ {
					leg += planar.Distance(w.Points[i-1], w.Points[i])
					turn := math.Inf(1) // the last leg ends at the bed
					if i+1 < len(w.Points) {
						a, b, c := w.Points[i-1], w.Points[i], w.Points[i+1]
						turn = math.Abs(math.Remainder(math.Atan2(c[1]-b[1], c[0]-b[0])-math.Atan2(b[1]-a[1], b[0]-a[0]), 2*math.Pi))
					}
					if turn < math.Pi/5 {
						continue // steered
					}
					if sharp {
						assert.GreaterOrEqual(t, leg, access.BarrowLength-0.05, "slope %v, bed %v %v: %v", slope, x, y, w.Points)
					}
					leg, sharp = 0, true
				}
			}
		}
	}
}
