package page_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestContoursAreRoundInTheUnitsAsked tries the same beds in both units: contours
// stand at half feet (6 inches) or at quarters of a metre.
func TestContoursAreRoundInTheUnitsAsked(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	for units, step := range map[string]float64{"m": 0.25, "ft": 0.1524} {
		var v struct {
			Shapes struct {
				Contours []struct {
					Level float64 `json:"level_m"`
				}
			}
		}
		require.Equal(t, 200, s.post("/api/try", map[string]any{"beds": []any{bed("one", 9, 15, 100)}, "units": units}, &v))
		require.NotEmpty(t, v.Shapes.Contours)
		for _, c := range v.Shapes.Contours {
			assert.InDelta(t, math.Round(c.Level/step), c.Level/step, 1e-4, "%s: %.4f m", units, c.Level)
		}
	}
}
