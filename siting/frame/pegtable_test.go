package frame_test

import (
	"math"
	"testing"

	"crossfall/siting/frame"
	"crossfall/siting/soil"

	"github.com/stretchr/testify/assert"
)

// tableSlopes are the columns of the tables below, which are for the middle peg of a
// 3.6 m side, 50 mm square and 1.8 m from its neighbours, on a bed 1.2 m wide that lies
// along the contour. They were worked out apart from this code from the force and moment
// balance of Broms 1964 by bisection. In each cell clay of 10, 20 and 40 kPa, then dry
// loose sand of 30 degrees and 16 kN/m3; compost 150 or 300 mm deep throughout.
var tableSlopes = []float64{.05, .10, .15, .20, .25}

func tableClay(cu float64) soil.Ground { return soil.Ground{Clay: true, Undrained: cu} }

var tableGrounds = []soil.Ground{
	tableClay(10), tableClay(20), tableClay(40),
	{FrictionAngle: 30 * math.Pi / 180, UnitWeight: 16},
}

// tableLoad is the load of that peg and the height at which it acts: earth, or
// the bed's pull down the slope where that is more, at a third of the height.
func tableLoad(lc frame.LoadCase, h, slope, spacing float64) (load, arm float64) {
	w := lc.Thrust(h, slope)
	if pull := 1.2 * frame.SlipShear(lc, h, slope); pull > w.Force {
		w = frame.Thrust{Force: pull, Arm: h / 3}
	}
	return 1.25 * spacing * w.Force, w.Arm
}

func tableCases(t testing.TB) map[string]frame.LoadCase {
	c := compost(t)
	return map[string]frame.LoadCase{"drained": frame.Drained(c), "winter": frame.Winter(c), "blocked": frame.Blocked(c)}
}

// The factor of safety of 180 mm in the ground, without a sunken edge.
func TestFactorOf180Millimetres(t *testing.T) {
	cases := tableCases(t)
	for _, row := range []struct {
		h    float64
		lc   string
		want [5][4]float64
	}{
		{.15, "drained", [5][4]float64{{1.54, 3.08, 6.17, .66}, {1.43, 2.86, 5.72, .59}, {1.33, 2.66, 5.31, .52}, {1.23, 2.47, 4.93, .46}, {1.14, 2.29, 4.58, .41}}},
		{.15, "winter", [5][4]float64{{.64, 1.27, 2.54, .27}, {.60, 1.20, 2.39, .24}, {.56, 1.13, 2.26, .22}, {.53, 1.07, 2.13, .20}, {.21, .43, .85, .08}}},
		{.15, "blocked", [5][4]float64{{.26, .52, 1.04, .11}, {.25, .49, .99, .10}, {.24, .47, .94, .09}, {.18, .36, .71, .07}, {.11, .22, .45, .04}}},
		{.30, "drained", [5][4]float64{{.30, .61, 1.21, .14}, {.28, .56, 1.13, .12}, {.26, .52, 1.04, .11}, {.24, .49, .97, .10}, {.23, .45, .90, .08}}},
		{.30, "winter", [5][4]float64{{.13, .26, .52, .06}, {.12, .24, .49, .05}, {.12, .23, .46, .05}, {.11, .22, .43, .04}, {.08, .17, .33, .03}}},
	} {
		for i, slope := range tableSlopes {
			load, arm := tableLoad(cases[row.lc], row.h, slope, 1.8)
			for j, g := range tableGrounds {
				p := frame.Peg{Size: .05, Ground: g, Slope: slope}
				assert.InDelta(t, row.want[i][j], p.Capacity(.18, arm)/load, .0062,
					"%v m %s, slope %v, ground %d", row.h, row.lc, slope, j)
			}
		}
	}
}

// over stands for a depth of more than a metre.
const over = -1

// Depths for a factor of safety of 2, mm, without a sunken edge.
func TestDepthWithoutSunkenEdge(t *testing.T) {
	cases := tableCases(t)
	for _, row := range []struct {
		h    float64
		lc   string
		want [5][4]float64
	}{
		{.15, "drained", [5][4]float64{{198, 156, 130, 299}, {204, 160, 132, 316}, {210, 164, 135, 334}, {216, 168, 137, 353}, {223, 172, 140, 375}}},
		{.15, "winter", [5][4]float64{{294, 214, 166, 463}, {303, 219, 169, 486}, {313, 225, 173, 510}, {323, 231, 176, 537}, {553, 361, 254, 841}}},
		{.15, "blocked", [5][4]float64{{486, 324, 232, 700}, {501, 332, 237, 730}, {516, 341, 242, 762}, {626, 400, 276, 895}, {878, 534, 350, over}}},
		{.30, "drained", [5][4]float64{{414, 290, 215, 599}, {432, 300, 222, 632}, {451, 311, 229, 668}, {471, 323, 236, 707}, {493, 335, 243, 750}}},
		{.30, "winter", [5][4]float64{{733, 465, 316, 927}, {765, 482, 326, 972}, {798, 500, 336, over}, {833, 518, 347, over}, {964, 593, 392, over}}},
	} {
		for i, slope := range tableSlopes {
			load, arm := tableLoad(cases[row.lc], row.h, slope, 1.8)
			for j, g := range tableGrounds {
				got := 1000 * frame.Peg{Size: .05, Ground: g, Slope: slope}.Depth(2*load, arm)
				if row.want[i][j] == over {
					assert.Greater(t, got, 1000.0)
					continue
				}
				assert.InDelta(t, row.want[i][j], got, .75, "%v m %s, slope %v, ground %d", row.h, row.lc, slope, j)
			}
		}
	}
}

// With an edge sunken 40 mm that takes the load; in each cell clay of 10 and 20
// kPa and sand at 1.8 m, then the same at 0.9 m. Cut, not rounded, to whole
// millimetres.
func TestDepthWithSunkenEdge(t *testing.T) {
	cases := tableCases(t)
	for _, row := range []struct {
		h    float64
		lc   string
		want [5][6]float64
	}{
		{.15, "drained", [5][6]float64{{149, 127, 209, 127, 112, 166}, {152, 129, 217, 129, 113, 172}, {155, 131, 226, 131, 115, 179}, {158, 133, 235, 133, 116, 186}, {161, 135, 245, 135, 118, 194}}},
		{.15, "winter", [5][6]float64{{184, 152, 271, 152, 129, 215}, {188, 154, 280, 154, 131, 222}, {191, 157, 290, 157, 133, 230}, {195, 160, 301, 160, 135, 239}, {275, 216, 430, 216, 175, 341}}},
		{.15, "blocked", [5][6]float64{{256, 203, 379, 203, 165, 301}, {260, 206, 390, 206, 167, 310}, {264, 209, 402, 209, 169, 319}, {293, 229, 449, 229, 184, 356}, {350, 269, 532, 269, 212, 422}}},
		{.30, "drained", [5][6]float64{{269, 212, 397, 212, 172, 315}, {277, 217, 413, 217, 176, 328}, {284, 223, 429, 223, 179, 341}, {292, 228, 447, 228, 183, 355}, {300, 234, 466, 234, 187, 370}}},
		{.30, "winter", [5][6]float64{{357, 274, 510, 274, 216, 404}, {366, 281, 527, 281, 220, 419}, {375, 287, 546, 287, 225, 434}, {385, 294, 567, 294, 230, 450}, {445, 336, 648, 336, 260, 515}}},
	} {
		for i, slope := range tableSlopes {
			for j, want := range row.want[i] {
				g := []soil.Ground{tableGrounds[0], tableGrounds[1], tableGrounds[3]}[j%3]
				load, arm := tableLoad(cases[row.lc], row.h, slope, []float64{1.8, .9}[j/3])
				got := 1000 * frame.Peg{Size: .05, Ground: g, Slope: slope}.CoupleDepth(2*load*(arm+.02))
				assert.Equal(t, want, math.Floor(got), "%v m %s, slope %v, column %d", row.h, row.lc, slope, j)
			}
		}
	}
}
