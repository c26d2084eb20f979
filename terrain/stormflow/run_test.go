package stormflow_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"sync"
	"testing"

	"crossfall/terrain/stormflow"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var limits = []float64{0.5, 1.5, 3}

// burst is 6 mm of rain in two minutes, the most of it in the middle.
var burst = stormflow.Series{Step: 10, Rates: []float64{
	1e-5, 2e-5, 3e-5, 4e-5, 8e-5, 12e-5, 12e-5, 8e-5, 4e-5, 3e-5, 2e-5, 1e-5,
}}

// Any number of workers gives the same bits, also when runs share a model.
func TestSameBitsForAnyWorkers(t *testing.T) {
	m := mustModel(t, terrace(true))
	storm := stormflow.Storm{
		Rain: burst, Duration: 150, Materials: wetGround, ShearLimits: limits,
	}
	if testing.Short() { // under the race detector
		storm.Duration = 30
	}
	var all [4]*stormflow.Result
	var frames [4][]stormflow.Frame
	var runs sync.WaitGroup
	for i := range all {
		runs.Go(func() {
			all[i], frames[i], _ = m.Run(context.Background(), storm, stormflow.Options{Workers: i + 1, Frames: 3})
		})
	}
	runs.Wait()
	require.Len(t, frames[0], 3)
	assert.Positive(t, all[0].Balance.Left())
	for i := range all {
		assert.Equal(t, fmt.Sprint(*all[0]), fmt.Sprint(*all[i]), "%d workers", i+1)
		assert.Equal(t, fmt.Sprint(frames[0]), fmt.Sprint(frames[i]))
	}
}

// A cancelled run gives what it has, and leaves no worker behind.
func TestCancelled(t *testing.T) {
	m := mustModel(t, terrace(true))
	ctx, cancel := context.WithCancel(context.Background())
	told := 0.0
	r, _, err := m.Run(ctx, stormflow.Storm{Rain: steady(40*mmPerHour, 3600), Duration: 3600, Materials: wetGround},
		stormflow.Options{Progress: func(played, duration float64) {
			told = played
			assert.Equal(t, 3600.0, duration)
			if played > 5 {
				cancel()
			}
		}})
	require.ErrorIs(t, err, context.Canceled)
	assert.Equal(t, told, r.Time)
	assert.InDelta(t, 5, r.Time, 3)
	assert.Less(t, math.Abs(r.Balance.Error), 1e-12)
}

// Ground that no method likes: an answer or a refusal, never a number that is
// none, and no depth under zero.
func TestHardGround(t *testing.T) {
	flat := func(s *stormflow.Spec) {
		for i := range s.Ground {
			s.Ground[i] = 12
		}
	}
	for name, change := range map[string]func(*stormflow.Spec, *stormflow.Storm){
		"flat":        func(s *stormflow.Spec, _ *stormflow.Storm) { flat(s) },
		"flat closed": func(s *stormflow.Spec, _ *stormflow.Storm) { flat(s); s.Edges = openOn() },
		"pit":         func(s *stormflow.Spec, _ *stormflow.Storm) { s.Ground[20*s.Cols+20] -= 5 },
		"cliff": func(s *stormflow.Spec, _ *stormflow.Storm) {
			for i := range s.Ground {
				if i%s.Cols < 20 {
					s.Ground[i] += 2
				}
			}
		},
		"hole in the ground": func(s *stormflow.Spec, _ *stormflow.Storm) {
			for i := range s.Ground {
				if c, r := i%s.Cols, i/s.Cols; c > 10 && c < 15 && r > 5 && r < 20 || c+r < 20 {
					s.Ground[i] = math.NaN()
				}
			}
		},
		"no rain":   func(_ *stormflow.Spec, r *stormflow.Storm) { r.Rain = steady(0, 60) },
		"none said": func(_ *stormflow.Spec, r *stormflow.Storm) { r.Rain = stormflow.Series{} },
		"300 mm/h":  func(_ *stormflow.Spec, r *stormflow.Storm) { r.Rain = steady(300*mmPerHour, 60) },
		"bed larger than the grid": func(s *stormflow.Spec, _ *stormflow.Storm) {
			s.Beds = []stormflow.Bed{{
				Corners: [4]orb.Point{{-500, -500}, {-500, 900}, {900, 900}, {900, -500}},
				Level:   func(orb.Point) float64 { return 3 }, Crests: [4]float64{4, 4, 4, 4},
			}}
		},
		"bed over the rim": func(s *stormflow.Spec, _ *stormflow.Storm) {
			s.Beds = []stormflow.Bed{{
				Corners: [4]orb.Point{{-3, 2}, {-1, 5}, {3, 3}, {1, 0}},
				Level:   func(orb.Point) float64 { return 2 }, Crests: [4]float64{2.2, 2.2, 2.2, 2.2},
			}}
		},
		"boards that cross": func(s *stormflow.Spec, _ *stormflow.Storm) {
			s.Boards = []stormflow.Board{
				{From: orb.Point{1, 1}, To: orb.Point{5, 5}, CrestFrom: 1, CrestTo: 1},
				{From: orb.Point{1, 5}, To: orb.Point{5, 1}, CrestFrom: 1.1, CrestTo: 0.9},
				{From: orb.Point{3, 3}, To: orb.Point{3, 3}, CrestFrom: 1, CrestTo: 1},
				{From: orb.Point{-1e8, 3.1}, To: orb.Point{1e8, 3}, CrestFrom: 1, CrestTo: 1},
			}
		},
	} {
		t.Run(name, func(t *testing.T) {
			s := tilted(6, 6, 0.15, 0.15)
			s.Edges = nil
			storm := stormflow.Storm{Rain: steady(60*mmPerHour, 60), Duration: 90, Materials: wetGround, ShearLimits: limits}
			change(&s, &storm)
			least, none := 0.0, false
			r := mustRun(t, mustModel(t, s), storm, stormflow.Options{ObserveEvery: 1, Observe: func(st stormflow.State) {
				for i := range s.Ground {
					d := st.Depth(i%s.Cols, i/s.Cols)
					least, none = math.Min(least, d), none || math.IsNaN(d+st.East(i%s.Cols, i/s.Cols)+st.North(i%s.Cols, i/s.Cols))
				}
			}})
			assert.Zero(t, least)
			assert.False(t, none)
			for i, d := range r.Bands.Depth {
				assert.Equal(t, math.IsNaN(d), math.IsNaN(r.Bands.Shear[i]))
			}
		})
	}
}

// Any ground: the balance holds and nothing falls under zero.
func TestAnyGround(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "cells along")
		cell := rapid.Float64Range(0.1, 1).Draw(t, "cell")
		s := stormflow.Spec{Cols: n, Rows: n, Cell: cell}
		s.Ground = rapid.SliceOfN(rapid.Float64Range(-3, 3), n*n, n*n).Draw(t, "ground")
		at := rapid.Float64Range(-1, 13*cell)
		s.Boards = []stormflow.Board{{
			From: orb.Point{at.Draw(t, "x"), at.Draw(t, "y")}, To: orb.Point{at.Draw(t, "x"), at.Draw(t, "y")},
			CrestFrom: rapid.Float64Range(-3, 4).Draw(t, "crest"), CrestTo: rapid.Float64Range(-3, 4).Draw(t, "crest"),
		}}
		rain := rapid.Float64Range(0, 300).Draw(t, "rain")
		m, err := stormflow.NewModel(s)
		require.NoError(t, err)
		r, _, err := m.Run(context.Background(), stormflow.Storm{
			Rain: steady(rain*mmPerHour, 20), Duration: 30, Materials: wetGround[:1],
		}, stormflow.Options{Workers: 1})
		require.NoError(t, err)
		assert.Zero(t, r.Balance.Negative)
		assert.LessOrEqual(t, math.Abs(r.Balance.Error), 1e-10*r.Balance.Rain)
		for _, d := range r.Bands.Depth {
			assert.False(t, math.IsNaN(d))
		}
	})
}

// All that is wrong is told at once.
func TestRefusals(t *testing.T) {
	bad := stormflow.Spec{
		Cols: 2, Rows: 2, Cell: math.NaN(), Ground: []float64{1, 2, math.Inf(1)}, Materials: []uint8{1},
		Beds:     []stormflow.Bed{{Name: "b"}},
		Channels: []stormflow.Channel{{Name: "c", Line: orb.LineString{{0, 0}, {1, 1}}, Width: 0.1, Depth: 0.1}},
	}
	_, err := stormflow.NewModel(bad)
	require.ErrorIs(t, err, stormflow.ErrSpec)
	for _, want := range []string{"cells of NaN m", "hold 3 heights", "hold 1 materials", "height of +Inf", "bed b has no level", "channel c is 0.1 m wide"} {
		assert.ErrorContains(t, err, want)
	}
	_, err = stormflow.NewModel(stormflow.Spec{Cols: 1 << 40, Rows: 1 << 40, Cell: 1})
	require.ErrorIs(t, err, stormflow.ErrSpec)
	none := []float64{math.NaN()}
	_, err = stormflow.NewModel(stormflow.Spec{Cols: 1, Rows: 1, Cell: 1, Ground: none})
	require.ErrorContains(t, err, "no cell has a height")

	m := mustModel(t, stormflow.Spec{Cols: 1, Rows: 1, Cell: 1, Ground: []float64{0}, Materials: []uint8{3}})
	r, _, err := m.Run(context.Background(), stormflow.Storm{
		Rain: steady(1, 1), Duration: math.NaN(), Materials: []stormflow.Material{{}}, Start: []float64{1, -1},
	}, stormflow.Options{})
	require.Nil(t, r)
	require.True(t, errors.Is(err, stormflow.ErrSpec))
	for _, want := range []string{"rain of 1", "duration of NaN", "roughness of 0", "material 3", "hold 2 depths", "depth of -1"} {
		assert.ErrorContains(t, err, want)
	}
}

// A channel across the fall takes the water along itself.
func TestChannelLeadsWaterAway(t *testing.T) {
	below := map[bool]float64{}
	for _, cut := range []bool{false, true} {
		s := tilted(8, 6, 0.2, 0.1)
		s.Edges = openOn(stormflow.East, stormflow.South)
		s.EdgeSlope = 0
		for i := range s.Ground { // a little fall southward
			s.Ground[i] += 0.02 * float64(i/s.Cols) * s.Cell
		}
		if cut {
			s.Channels = []stormflow.Channel{{Name: "cut", Line: orb.LineString{{4, 6}, {4, -0.2}}, Width: 0.4, Depth: 0.15}}
		}
		s.Lines = []stormflow.Line{{Name: "below", From: orb.Point{5, 0}, To: orb.Point{5, 6}}}
		r := mustRun(t, mustModel(t, s), stormflow.Storm{Rain: steady(50*mmPerHour, 300), Duration: 300, Materials: turf}, stormflow.Options{})
		below[cut] = r.Lines[0].ToRight
	}
	assert.Less(t, below[true], 0.35*below[false])
}

func ExampleModel_Run() {
	// a strip of 10 m that falls 10 %, in cells of half a metre
	s := stormflow.Spec{Cols: 20, Rows: 1, Cell: 0.5, Edges: openOn(stormflow.East)}
	for i := range 20 {
		s.Ground = append(s.Ground, 0.05*float64(20-i))
	}
	m, err := stormflow.NewModel(s)
	if err != nil {
		fmt.Println(err)
		return
	}
	r, _, err := m.Run(context.Background(), stormflow.Storm{
		Rain:      stormflow.Series{Step: 1800, Rates: []float64{0.036 / 3600}}, // 36 mm/h for half an hour
		Duration:  1800,
		Materials: []stormflow.Material{{Manning: 0.15}},
	}, stormflow.Options{})
	fmt.Printf("%.1f litres fell, %.1f left, %.1f stand: %v\n", 1000*r.Balance.Rain, 1000*r.Balance.Left(), 1000*r.Balance.Stands, err)
	// Output: 90.0 litres fell, 81.7 left, 8.3 stand: <nil>
}

// A run ten times as long makes nothing more: there is no allocation in its loop.
func TestNoAllocationInTheLoop(t *testing.T) {
	m := mustModel(t, terrace(true))
	made := func(seconds float64) float64 {
		storm := stormflow.Storm{Rain: steady(40*mmPerHour, seconds), Duration: seconds, Materials: wetGround, ShearLimits: limits}
		return testing.AllocsPerRun(2, func() {
			_, _, err := m.Run(context.Background(), storm, stormflow.Options{Workers: 1})
			require.NoError(t, err)
		})
	}
	assert.InDelta(t, made(6), made(60), 1)
}
