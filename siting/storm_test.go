package siting_test

import (
	"context"
	"encoding/json"
	"math"
	"testing"
	"time"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// quick plays on few cells.
var quick = siting.StormOptions{MostCells: 1500}

func TestStormOverAPlot(t *testing.T) {
	p := read(t, "hillside-pinned")
	a := assess(t, p)
	opt := quick
	last, expected := 0.0, time.Duration(0)
	opt.Progress = func(done float64) {
		assert.GreaterOrEqual(t, done, last)
		last = done
	}
	opt.Expect = func(d time.Duration) { expected = d }
	s, err := siting.RunStorm(context.Background(), p, a, opt)
	require.NoError(t, err)
	assert.InDelta(t, 1, last, 1e-9)
	assert.Positive(t, expected)
	assert.Positive(t, s.Cells)
	assert.LessOrEqual(t, s.Cells, 1600)
	require.Len(t, s.Storms, 1)
	played := s.Storms[0]
	assert.Equal(t, 10.0, played.ReturnYears)
	assert.Equal(t, 9, played.Runs)
	assert.Equal(t, 27, played.Cases)
	assert.NotEmpty(t, played.Rank)
	for _, w := range []siting.StormWater{played.WithBeds, played.Without} {
		assert.LessOrEqual(t, w.Balance, 1e-10)
		assert.InEpsilon(t, played.Depth/1000*float64(s.Cells)*s.Cell*s.Cell, w.Rain.Value, 1e-9, "the rain on the cells")
		assert.LessOrEqual(t, w.TakenUp.Low, w.TakenUp.Value)
		assert.LessOrEqual(t, w.TakenUp.Value, w.TakenUp.High)
		require.NotNil(t, w.Quickest)
	}
	assert.NotEmpty(t, played.Boards)
	assert.Len(t, played.Frames, 12)
	require.Len(t, played.FramesWithout, len(played.Frames))
	for i, f := range played.Frames {
		assert.InDelta(t, f.Minutes, played.FramesWithout[i].Minutes, 0.1, "the same times")
		assert.Len(t, f.Depth, f.Cols*f.Rows)
	}
	var back siting.Storm
	text, err := json.Marshal(s)
	require.NoError(t, err, "no figure may be missing from JSON")
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Equal(t, *s, back)
}

// A storm holds for its plot, read again, and no longer once a height or the
// rain is another.
func TestStormState(t *testing.T) {
	p := read(t, "hillside-pinned")
	var none *siting.Storm
	assert.Equal(t, siting.StormNotRun, none.State(p))
	s := &siting.Storm{Key: siting.StormKey(p)}
	assert.Equal(t, siting.StormCurrent, s.State(read(t, "hillside-pinned")))
	p.Spots[3].Height += 0.01
	assert.Equal(t, siting.StormOutOfDate, s.State(p))
	q := read(t, "hillside-pinned")
	q.Site.Rain.M5Hour = new(float64)
	assert.Equal(t, siting.StormOutOfDate, s.State(q))
}

// Cancelled, it gives what was finished and says that this is too little to rank.
func TestStormCancelled(t *testing.T) {
	p := read(t, "hillside-pinned")
	a := assess(t, p)
	ctx, cancel := context.WithCancel(context.Background())
	opt := quick
	opt.Progress = func(done float64) {
		if done > 2.5/18 {
			cancel()
		}
	}
	s, err := siting.RunStorm(ctx, p, a, opt)
	require.ErrorIs(t, err, context.Canceled)
	require.Len(t, s.Storms, 1)
	assert.Equal(t, 1, s.Storms[0].Runs)
	assert.Contains(t, s.Storms[0].Rank, "too few")
}

func TestStormRefusals(t *testing.T) {
	p := read(t, "hillside-pinned")
	a := assess(t, p)
	for _, o := range []siting.StormOptions{{Years: []float64{5}}, {Minutes: 10}, {Minutes: math.NaN()}, {MostCells: 1e6}} {
		_, err := siting.RunStorm(context.Background(), p, a, o)
		assert.Error(t, err)
	}
	p.Boundary = orb.Polygon{orb.Ring{{0, 0}, {900, 0}, {900, 900}, {0, 900}, {0, 0}}}
	_, err := siting.RunStorm(context.Background(), p, a, siting.StormOptions{})
	assert.ErrorContains(t, err, "can be played")
}

// A current storm raises an edge that its water is too deep for, and says so; it
// never makes one milder, and one that is out of date does nothing.
func TestStormOnlyRaises(t *testing.T) {
	p := read(t, "hillside-pinned")
	a := assess(t, p)
	assert.Equal(t, siting.StormNotRun, a.Water.Storm)
	s := &siting.Storm{Key: siting.StormKey(p), Storms: []siting.StormPlayed{{ReturnYears: 10, Runs: 9}}}
	for i, b := range a.Beds { // deep water at every other bed, none at the rest
		s.Storms[0].AtBeds = append(s.Storms[0].AtBeds, siting.StormAtBed{
			Bed: b.Name, At: b.Centre, Depth: geodata.Exactly(float64(8 * (1 - i%2))),
		})
	}
	with := func(s *siting.Storm) *siting.Assessment {
		b, err := siting.Assess(context.Background(), p, siting.Options{Storm: s})
		require.NoError(t, err)
		return b
	}
	b := with(s)
	assert.Equal(t, siting.StormCurrent, b.Water.Storm)
	raised := 0
	for i := range b.Beds {
		before, after := a.Beds[i], b.Beds[i]
		assert.GreaterOrEqual(t, after.Edge.Severity(), before.Edge.Severity())
		if after.Edge != before.Edge {
			raised++
			assert.Contains(t, after.EdgeBecause, "raised from "+string(before.Edge)+" by the storm")
			assert.Contains(t, after.Worth, "water runs on to it", "the other edges are judged by the same water")
			continue
		}
		assert.Equal(t, before.EdgeBecause, after.EdgeBecause)
	}
	assert.Positive(t, raised)
	s.Key = "of another plot"
	b = with(s)
	assert.Equal(t, siting.StormOutOfDate, b.Water.Storm)
	assert.Equal(t, a.Beds, b.Beds)
}
