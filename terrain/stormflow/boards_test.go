package stormflow_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/terrain/stormflow"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
)

var turf = []stormflow.Material{{Manning: 0.05}}

// A lake at rest over uneven ground, partly dry, with a drowned board, stays so.
func TestLakeAtRest(t *testing.T) {
	const n, level = 40, 0.4137
	s := stormflow.Spec{Cols: n, Rows: n, Cell: 0.25, Ground: make([]float64, n*n), Edges: openOn()}
	start := make([]float64, n*n)
	for i := range s.Ground {
		x, y := float64(i%n), float64(i/n)
		s.Ground[i] = 0.27 + 0.3*math.Sin(x*0.7)*math.Cos(y*0.4) + 0.01*x + 0.007*y
		// rounding of the levels, which must not grow
		start[i] = math.Max(0, level-s.Ground[i]) * (1 + 3e-16*math.Sin(float64(i)))
	}
	s.Boards = []stormflow.Board{{Name: "drowned", From: orb.Point{1, 2}, To: orb.Point{8, 7}, CrestFrom: level - 0.05, CrestTo: level - 0.02}}
	fastest, moved, dryCells := 0.0, 0.0, 0
	r := mustRun(t, mustModel(t, s), stormflow.Storm{Duration: 150, Materials: turf, Start: start},
		stormflow.Options{ObserveEvery: 1, Observe: func(st stormflow.State) {
			dryCells = 0
			for i := range s.Ground {
				fastest = math.Max(fastest, math.Max(math.Abs(st.East(i%n, i/n)), math.Abs(st.North(i%n, i/n))))
				moved = math.Max(moved, math.Abs(st.Depth(i%n, i/n)-start[i]))
				if st.Depth(i%n, i/n) == 0 {
					dryCells++
				}
			}
		}})
	t.Logf("%d steps, %d dry cells: greatest discharge %.1e m2/s, change of depth %.1e m", r.Steps, dryCells, fastest, moved)
	assert.Greater(t, r.Steps, 2000)
	assert.Positive(t, dryCells)
	assert.Less(t, fastest, 1e-12)
	assert.Less(t, moved, 1e-12)
}

// A board across a strip holds a wedge H²/(2S) and the film above it before it
// runs over; in balance it carries the head of its weir law.
func TestBoardAcrossAStrip(t *testing.T) {
	if testing.Short() {
		t.Skip("long; TestSameBitsForAnyWorkers plays storms for the race detector")
	}
	const slope, height, rain = 0.15, 0.20, 40 * mmPerHour
	wedge, film := height*height/(2*slope), 0.02107 // m2; film: 5/8 of the depth at its end times its length
	assert.InDelta(t, 694.8, (wedge+film)/(rain*20), 0.1)
	for _, cell := range []float64{0.2, 0.1} {
		s := strip(30, cell, slope)
		ground := slope * 10.0 // at x = 20 m
		s.Boards = []stormflow.Board{{Name: "dam", From: orb.Point{20, 0}, To: orb.Point{20, cell}, CrestFrom: ground + height, CrestTo: ground + height}}
		head := 0.0
		r := mustRun(t, mustModel(t, s), stormflow.Storm{
			Rain: steady(rain, 2400), Duration: 2400, Materials: turf, WeirFactor: 0.60,
		}, stormflow.Options{ObserveEvery: 2400, Observe: func(st stormflow.State) {
			up := int(math.Round(20/cell)) - 1
			head = st.Depth(up, 0) + s.Ground[up] - (ground + height)
		}})
		t.Logf("cells of %g m: runs over after %.1f s (%.1f), head %.4f mm", cell, r.Boards[0].First, (wedge+film)/(rain*20), 1000*head)
		assert.InDelta(t, (wedge+film)/(rain*20), r.Boards[0].First, 2)
		assert.InDelta(t, r.Boards[0].First*rain, r.Boards[0].RainUntil, 1e-4)
		assert.InDelta(t, 2.5056e-3, head, 2e-7)
	}
}

// Heads over a weir of factor 0.6 (Poleni 1717), worked by hand from q = 2/3 C sqrt(2g)
// H^1.5: 1e-3 m2/s needs (1e-3 / 1.7718)^(2/3) = 6.83 mm.
func TestWeirHeads(t *testing.T) {
	for q, want := range map[float64]float64{2.2222e-4: 2.506e-3, 5e-4: 4.302e-3, 1e-3: 6.830e-3} {
		s := strip(4, 0.1, 0.05)
		s.Boards = []stormflow.Board{{From: orb.Point{2, 0}, To: orb.Point{2, 0.1}, CrestFrom: 0.3, CrestTo: 0.3}}
		s.RunOn = func(p orb.Point, rise float64) float64 {
			if p[0] == 0 {
				return 1
			}
			return 0
		}
		head := 0.0
		mustRun(t, mustModel(t, s), stormflow.Storm{
			RunOn: steady(q, 4000), Duration: 4000, Materials: turf, WeirFactor: 0.60,
		}, stormflow.Options{ObserveEvery: 4000, Observe: func(st stormflow.State) {
			head = st.Depth(19, 0) + s.Ground[19] - 0.3
		}})
		assert.InDelta(t, want, head, 1e-6, "%g m2/s", q)
	}
}

// tilted is ground that falls eastward.
func tilted(width, depth, cell, slope float64) stormflow.Spec {
	s := stormflow.Spec{Cols: int(math.Round(width / cell)), Rows: int(math.Round(depth / cell)), Cell: cell, EdgeSlope: slope, Edges: openOn(stormflow.East)}
	s.Ground = make([]float64, s.Cols*s.Rows)
	for i := range s.Ground {
		s.Ground[i] = slope * (width - (float64(i%s.Cols)+0.5)*cell)
	}
	return s
}

// A bed across the fall of a plane parts the flow evenly and holds its own rain:
// what leaves is the rain on the rest, exactly.
func TestBoxInTheFlow(t *testing.T) {
	if testing.Short() {
		t.Skip("long; TestSameBitsForAnyWorkers plays storms for the race detector")
	}
	for _, cell := range []float64{0.2, 0.1} {
		s := tilted(12, 10, cell, 0.15)
		top := 3.0
		s.Beds = []stormflow.Bed{{
			Name: "bed", Corners: [4]orb.Point{{6, 3.2}, {6, 6.8}, {7.2, 6.8}, {7.2, 3.2}},
			Crests: [4]float64{top, top, top, top}, Level: func(orb.Point) float64 { return top - 0.05 },
		}}
		s.Lines = []stormflow.Line{
			{Name: "south of it", From: orb.Point{6.6, 3.2}, To: orb.Point{6.6, 0}},
			{Name: "north of it", From: orb.Point{6.6, 10}, To: orb.Point{6.6, 6.8}},
		}
		var out, south, north, askew float64
		before := stormflow.Balance{}
		r := mustRun(t, mustModel(t, s), stormflow.Storm{Rain: steady(60*mmPerHour, 400), Duration: 400, Materials: turf},
			stormflow.Options{ObserveEvery: 300, Observe: func(st stormflow.State) {
				before = st.Balance
				for row := range s.Rows {
					y := float64(row) * cell
					q := st.East(int(math.Round(6.6/cell)), row) * cell
					if y < 3.15 {
						south += q
					} else if y > 6.75 {
						north += q
					}
					out += st.East(s.Cols, row) * cell
					for col := range s.Cols {
						askew = math.Max(askew, math.Abs(st.Depth(col, row)-st.Depth(col, s.Rows-1-row)))
					}
				}
			}})
		t.Logf("cells of %g m: %.5e and %.5e m3/s beside it, %.6e out; asymmetry %.1e m", cell, south, north, out, askew)
		rain := 60 * mmPerHour
		assert.InEpsilon(t, rain*(120-1.2*3.6), out, 1e-5)
		assert.InEpsilon(t, south, north, 1e-12)
		assert.InDelta(t, 5.32e-4, south, 2e-7)
		assert.Less(t, askew, 1e-14)
		assert.InEpsilon(t, r.Lines[0].ToLeft+r.Lines[0].ToRight, r.Lines[1].ToLeft+r.Lines[1].ToRight, 1e-12)
		assert.InEpsilon(t, rain*(120-1.2*3.6)*100, r.Balance.Left()-before.Left(), 1e-5)
		assert.Equal(t, -1.0, r.Boards[0].First)
		if cell == 0.2 {
			worst := 0.0
			for i, d := range r.Bands.Depth {
				worst = math.Max(worst, d)
				assert.False(t, math.IsNaN(d), i)
			}
			assert.Positive(t, worst)
		}
	}
}

// A sealed box round a pond leaks nothing, at any angle.
func TestSealedBoxAtEveryDegree(t *testing.T) {
	if testing.Short() {
		t.Skip("long; TestSameBitsForAnyWorkers plays storms for the race detector")
	}
	for degree := 0; degree <= 90; degree++ {
		s := tilted(6, 6, 0.2, 0.08)
		s.Edges = nil
		var corners [4]orb.Point
		sin, cos := math.Sincos(float64(degree) * math.Pi / 180)
		for i, c := range [][2]float64{{-1.3, -0.8}, {-1.3, 0.8}, {1.3, 0.8}, {1.3, -0.8}} {
			corners[i] = orb.Point{3 + c[0]*cos - c[1]*sin, 3 + c[0]*sin + c[1]*cos}
		}
		s.Beds = []stormflow.Bed{{
			Name: fmt.Sprint(degree), Corners: corners, Crests: [4]float64{1, 1, 1, 1},
			Level: func(orb.Point) float64 { return 0.5 }, Material: 1,
		}}
		start := make([]float64, len(s.Ground))
		m := mustModel(t, s)
		// the pond lies where the fill is: there alone it stands 0.3 m deep
		for _, i := range inBox(s, corners) {
			start[i] = 0.3
		}
		r := mustRun(t, m, stormflow.Storm{Duration: 20, Materials: append(turf[:1:1], stormflow.Material{Manning: 0.1}), Start: start}, stormflow.Options{})
		assert.InDelta(t, r.Balance.Began, r.Balance.Stands, 1e-15, "%d degrees", degree)
		assert.Zero(t, r.Balance.Left(), "%d degrees", degree)
		for _, b := range r.Boards {
			assert.Zero(t, b.Over, "%d degrees", degree)
		}
	}
}

// inBox are the cells whose middle is well inside a box.
func inBox(s stormflow.Spec, c [4]orb.Point) []int {
	var all []int
	for i := range s.Ground {
		p := orb.Point{(float64(i%s.Cols) + 0.5) * s.Cell, (float64(i/s.Cols) + 0.5) * s.Cell}
		in := true
		for k := range c {
			a, b := c[k], c[(k+1)%4]
			d := ((p[0]-a[0])*(b[1]-a[1]) - (p[1]-a[1])*(b[0]-a[0])) / math.Hypot(b[0]-a[0], b[1]-a[1])
			in = in && d > 1.5*s.Cell
		}
		if in {
			all = append(all, i)
		}
	}
	return all
}
