package drainage_test

import (
	"bufio"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"crossfall/terrain/drainage"
	"crossfall/terrain/relief"
)

// rasterFrom is a raster of a function of place.
func rasterFrom(origin orb.Point, cell float64, cols, rows int, z func(x, y float64) float64) *relief.Raster {
	r := &relief.Raster{Origin: origin, Cell: cell, Cols: cols, Rows: rows, Z: make([]float32, cols*rows)}
	for i := range r.Z {
		p := r.Node(i%cols, i/cols)
		r.Z[i] = float32(z(p[0], p[1]))
	}
	return r
}

// Specific catchment area on surfaces where it is known: on a cone r/2, in a funnel of radius
// R (R^2 - r^2)/(2 r), on a plane the distance up the slope to the edge. Nodes 1 m apart. Root
// mean square of the relative error and mean of the ratio, worked beforehand by a separate
// program on 101 by 101 nodes whose outermost pass nothing on: that is 99 by 99 here.
func TestSpecificAreaOfKnownSurfaces(t *testing.T) {
	ring := func(x, y float64) bool { r := math.Hypot(x, y); return r > 5 && r < 45 }
	s20, c20 := math.Sincos(20 * math.Pi / 180)
	for name, tc := range map[string]struct {
		z, area func(x, y float64) float64
		counts  func(x, y float64) bool
		want    [4][2]float64 // D8, D-infinity, Freeman, Quinn
	}{
		"cone": {
			func(x, y float64) float64 { return 100 - .1*math.Hypot(x, y) },
			func(x, y float64) float64 { return math.Hypot(x, y) / 2 },
			ring, [4][2]float64{{.5308, .9016}, {.1189, .9140}, {.0903, 1.0858}, {.1358, 1.1297}},
		},
		"funnel": {
			func(x, y float64) float64 {
				if r := math.Hypot(x, y); r > 50 {
					return 5 - .001*(r-50)
				}
				return .1 * math.Hypot(x, y)
			},
			func(x, y float64) float64 { r := math.Hypot(x, y); return (2500 - r*r) / (2 * r) },
			ring, [4][2]float64{{1.2941, .9792}, {.1553, .9809}, {.1792, 1.1517}, {.2238, 1.1974}},
		},
		"plane": {
			func(x, y float64) float64 { return -.1 * (x*s20 + y*c20) },
			func(x, y float64) float64 { return min((y+50.5)/c20, (x+50.5)/s20) },
			func(x, y float64) bool { return math.Abs(x) < 40 && math.Abs(y) < 40 },
			[4][2]float64{{.1841, .9726}, {.1156, .9007}, {.0514, 1.0422}, {.0880, 1.0833}},
		},
	} {
		t.Run(name, func(t *testing.T) {
			r := rasterFrom(orb.Point{-49, -49}, 1, 99, 99, tc.z)
			for k, routing := range []drainage.Routing{drainage.D8, drainage.DInfinity, drainage.Freeman, drainage.Quinn} {
				n, err := drainage.Route(r, drainage.GridOptions{Routing: routing, Hollows: drainage.KeepHollows})
				require.NoError(t, err)
				g := n.Accumulate()
				var squares, ratios, count float64
				for i, a := range g.Area {
					p := r.Node(i%99, i/99)
					if !tc.counts(p[0], p[1]) {
						continue
					}
					ratio := a / tc.area(p[0], p[1])
					squares += (ratio - 1) * (ratio - 1)
					ratios += ratio
					count++
				}
				assert.InDelta(t, tc.want[k][0], math.Sqrt(squares/count), .002, "spread, routing %d", k)
				assert.InDelta(t, tc.want[k][1], ratios/count, .002, "mean, routing %d", k)
				assert.InDelta(t, 99*99, g.Leaves+g.Stands, 1e-6)
			}
		})
	}
}

var routings = []drainage.Routing{drainage.DInfinity, drainage.D8, drainage.Freeman, drainage.Quinn, drainage.Adaptive}

// No water is lost or made: what leaves and what stands is the area of the known ground, and
// with hollows filled or cut nothing stands that walls do not shut in.
func TestWaterIsConserved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cols, rows := rapid.IntRange(1, 12).Draw(t, "cols"), rapid.IntRange(1, 12).Draw(t, "rows")
		r := &relief.Raster{Cell: 2, Cols: cols, Rows: rows, Z: make([]float32, cols*rows)}
		known := 0.
		for i := range r.Z {
			r.Z[i] = float32(rapid.IntRange(0, 30).Draw(t, "z")) / 4
			if rapid.IntRange(0, 11).Draw(t, "hole") == 0 {
				r.Z[i] = float32(math.NaN())
			} else {
				known++
			}
		}
		opt := drainage.GridOptions{
			Routing:      rapid.SampledFrom(routings).Draw(t, "routing"),
			Hollows:      drainage.HollowRule(rapid.IntRange(0, 2).Draw(t, "rule")),
			Breach:       relief.BreachOptions{MaxCut: 2},
			NodataIsWall: rapid.Bool().Draw(t, "wall"),
		}
		n, err := drainage.Route(r, opt)
		require.NoError(t, err)
		g := n.Accumulate()
		require.InDelta(t, 4*known, g.Leaves+g.Stands, 1e-9)
		if opt.Hollows != drainage.KeepHollows && !opt.NodataIsWall {
			require.Zero(t, g.Stands)
		}
		for i, a := range g.Area {
			if math.IsNaN(float64(r.Z[i])) {
				require.True(t, math.IsNaN(a))
				continue
			}
			require.GreaterOrEqual(t, a, 4.)
			require.LessOrEqual(t, a, 4*known+1e-9)
		}
	})
}

// The same of the data set volcano of the R package datasets: 87 x 61 nodes of 100 m2.
func TestWaterOfTheVolcanoIsConserved(t *testing.T) {
	r := readVolcano(t)
	for _, routing := range routings {
		kept := 0.
		for _, rule := range []drainage.HollowRule{drainage.KeepHollows, drainage.FillHollows, drainage.BreachHollows} {
			n, err := drainage.Route(r, drainage.GridOptions{Routing: routing, Hollows: rule, Breach: relief.BreachOptions{MaxCut: 20, MaxLength: 400}})
			require.NoError(t, err)
			g := n.Accumulate()
			assert.InEpsilon(t, 87*61*100, g.Leaves+g.Stands, 1e-12)
			if rule == drainage.KeepHollows {
				kept = g.Stands
				assert.Greater(t, kept, 1000., "the crater holds water")
			} else {
				assert.Zero(t, g.Stands)
			}
			assert.Equal(t, rule == drainage.BreachHollows, len(n.Cuts) > 0)
		}
	}
}

// readVolcano reads the data set volcano of the R package datasets.
func readVolcano(t *testing.T) *relief.Raster {
	t.Helper()
	file, err := os.Open("../relief/testdata/volcano/volcano_87x61.asc")
	require.NoError(t, err)
	defer file.Close()
	r := &relief.Raster{Cell: 10, Cols: 61, Rows: 87, Z: make([]float32, 87*61)}
	row := 86
	for lines := bufio.NewScanner(file); lines.Scan(); {
		fields := strings.Fields(lines.Text())
		if len(fields) < 61 {
			continue // the heading
		}
		for col, f := range fields {
			z, err := strconv.ParseFloat(f, 32)
			require.NoError(t, err)
			r.Z[row*61+col] = float32(z)
		}
		row--
	}
	require.Equal(t, -1, row)
	return r
}

// On a plane that falls due south every node's water is that of its column, the edges
// included: the ground is carried on there.
func TestEdgesPassWaterOn(t *testing.T) {
	r := rasterFrom(orb.Point{}, .5, 9, 7, func(_, y float64) float64 { return .1 * y })
	for _, routing := range []drainage.Routing{drainage.D8, drainage.DInfinity} {
		n, err := drainage.Route(r, drainage.GridOptions{Routing: routing})
		require.NoError(t, err)
		g := n.Accumulate()
		for i, a := range g.Area {
			assert.InDelta(t, .25*float64(7-i/9), a, 1e-6, "node %d", i)
		}
		assert.InDelta(t, 63*.25, g.Leaves, 1e-9)
	}
}

// The steepest of eight with ties to the first clockwise from north, and level ground that was
// filled drains to its outlet.
func TestWaysOfTheNetwork(t *testing.T) {
	z := []float32{ // the southern row first
		9, 9, 9, 9, 9,
		9, 6, 5, 6, 9,
		9, 5, 7, 5, 9,
		9, 6, 5, 6, 8,
		9, 9, 9, 9, 9,
	}
	r := &relief.Raster{Cell: 1, Cols: 5, Rows: 5, Z: z}
	n, err := drainage.Route(r, drainage.GridOptions{Routing: drainage.D8, Hollows: drainage.KeepHollows})
	require.NoError(t, err)
	assert.Equal(t, relief.North, n.To[12], "N, E, S and W are 2 lower alike")
	assert.Equal(t, relief.Nowhere, n.To[7])
	n, err = drainage.Route(r, drainage.GridOptions{Routing: drainage.D8})
	require.NoError(t, err)
	g := n.Accumulate()
	assert.Equal(t, 25., g.Leaves)
	assert.Equal(t, 25., g.Area[19], "all goes inward, round the moat and out by the gap in the east")
	_, err = drainage.Route(&relief.Raster{}, drainage.GridOptions{})
	assert.ErrorContains(t, err, "not over 0")
}

// hillside is seeded rough ground of a given size.
func hillside(n int) *relief.Raster {
	noise := rand.New(rand.NewPCG(3, 5))
	return rasterFrom(orb.Point{}, 1, n, n, func(x, y float64) float64 {
		return 200 + .02*y + 9*math.Sin(x/71)*math.Cos(y/93) + 4*math.Sin((x+2*y)/29) + .06*(noise.Float64()-.5)
	})
}

func BenchmarkRouteAndAccumulate(b *testing.B) {
	for _, size := range []int{500, 4000} {
		for _, routing := range []struct {
			name string
			is   drainage.Routing
		}{{"D8", drainage.D8}, {"Tarboton", drainage.DInfinity}, {"Freeman", drainage.Freeman}} {
			b.Run(fmt.Sprintf("nodes=%dx%d/%s", size, size, routing.name), func(b *testing.B) {
				if size > 1000 && testing.Short() {
					b.Skip("a big grid")
				}
				r := hillside(size)
				b.ReportAllocs()
				for b.Loop() {
					n, err := drainage.Route(r, drainage.GridOptions{Routing: routing.is})
					if err != nil {
						b.Fatal(err)
					}
					n.Accumulate()
				}
			})
		}
	}
}
