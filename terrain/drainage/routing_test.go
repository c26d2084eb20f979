package drainage_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"crossfall/terrain/drainage"
	"crossfall/terrain/relief"
)

// window has nodes 2 m apart; falls to N -.175, NE -.053033, E .075, SE .176777, S .14, SW
// .053033, W -.1, NW -.176777.
var window = relief.Window{101.20, 101.05, 100.85, 100.90, 100.70, 100.55, 100.55, 100.42, 100.20}

// The shares of one window, by hand from the formulas of Freeman 1991, Quinn et al. 1991,
// Qin et al. 2007 (power 2.673313) and Tarboton 1997.
func TestSharesOfOneWindow(t *testing.T) {
	for name, tc := range map[string]struct {
		routing                         drainage.Routing
		east, southeast, south, southwe float64
	}{
		"D8":       {drainage.D8, 0, 1, 0, 0},
		"Freeman":  {drainage.Freeman, .160309, .411679, .318517, .109495},
		"Quinn":    {drainage.Quinn, .198675, .331126, .370861, .099338},
		"adaptive": {drainage.Adaptive, .073628, .515197, .390562, .020614},
		"Tarboton": {drainage.DInfinity, 0, .847938, .152062, 0},
	} {
		t.Run(name, func(t *testing.T) {
			got, ok := tc.routing.Shares(window, 2)
			require.True(t, ok)
			want := [8]float64{2: tc.east, 3: tc.southeast, 4: tc.south, 5: tc.southwe}
			assert.InDeltaSlice(t, want[:], got[:], 1e-6)
		})
	}
	downhill, fall, ok := drainage.Direction(window, 2)
	require.True(t, ok)
	assert.InDelta(t, .178045, fall, 1e-6)
	assert.InDelta(t, 141.8428, downhill.Degrees(), 1e-4)
	assert.InDelta(t, 5.378358, math.Pi/2-float64(downhill)+2*math.Pi, 1e-6)
}

// On a plane the direction is that of the plane, whichever way it faces.
func TestDirectionOnAPlane(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		facing := rapid.Float64Range(0, 2*math.Pi).Draw(t, "facing")
		s, c := math.Sincos(facing)
		var w relief.Window
		for i := range w {
			w[i] = 50 - .1*3*(s*float64(i%3-1)+c*float64(1-i/3))
		}
		downhill, fall, ok := drainage.Direction(w, 3)
		require.True(t, ok)
		require.InDelta(t, .1, fall, 1e-9)
		apart := math.Abs(float64(downhill) - facing)
		require.LessOrEqual(t, min(apart, 2*math.Pi-apart), 1e-6)
	})
}

// Shares add up to 1, go to lower ground only, and turn with the window.
func TestSharesProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var w, turned relief.Window
		for i := range w {
			w[i] = float64(rapid.IntRange(0, 1000).Draw(t, "z"))/100 + float64(i)*1e-4
			if i != 4 && rapid.IntRange(0, 9).Draw(t, "hole") == 0 {
				w[i] = math.NaN()
			}
		}
		for i := range w { // a quarter turn clockwise
			turned[(i%3)*3+2-i/3] = w[i]
		}
		for _, routing := range []drainage.Routing{drainage.D8, drainage.DInfinity, drainage.Freeman, drainage.Quinn, drainage.Adaptive} {
			shares, ok := routing.Shares(w, 2)
			after, okAfter := routing.Shares(turned, 2)
			require.Equal(t, ok, okAfter)
			var sum, lower float64
			for k, at := range []int{1, 2, 5, 8, 7, 6, 3, 0} {
				sum += shares[k]
				require.InDelta(t, shares[k], after[(k+2)%8], 1e-9)
				if w[at] < w[4] {
					lower++
				} else {
					require.Zero(t, shares[k])
				}
			}
			require.Equal(t, lower > 0, ok)
			if ok {
				require.InDelta(t, 1, sum, 1e-12)
			}
		}
	})
}
