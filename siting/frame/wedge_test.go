package frame_test

import (
	"math"
	"testing"

	"crossfall/siting/frame"

	"github.com/stretchr/testify/assert"
)

// Worked by hand: s |cos| along and s |sin| across of the angle between long side and
// fall, times 3.6 and 1.2 m.
func TestParts(t *testing.T) {
	for _, c := range []struct{ slope, aspect, axis, along, across, fallAlong, fallAcross float64 }{
		{.10, 180, 90, 0, .1000, 0, .1200},
		{.10, 180, 180, .1000, 0, .3600, 0},
		{.15, 135, 90, .1061, .1061, .3818, .1273},
		{.08, 200, 230, .0693, .0400, .2494, .0480},
	} {
		across, along := frame.Parts(c.slope, rad(c.axis), rad(c.aspect))
		assert.InDelta(t, c.across, across, 5e-5)
		assert.InDelta(t, c.along, along, 5e-5)
		assert.InDelta(t, c.fallAlong, 3.6*along, 1e-4)
		assert.InDelta(t, c.fallAcross, 1.2*across, 5e-5)
		assert.InDelta(t, c.slope, math.Hypot(across, along), 1e-12)
	}
}

// Volumes of wedges under a top of 1.2 by 3.6 m, worked by hand.
func TestWedge(t *testing.T) {
	for _, c := range []struct {
		name        string
		w           frame.Wedge
		low, volume float64
	}{
		{"level top across a slope", frame.Wedge{Fill: .15, Across: .10}, .27, .9072},
		{"on the level", frame.Wedge{Fill: .15}, .15, .648},
		{"long side down the slope", frame.Wedge{Fill: .15, Along: .10}, .51, 1.4256},
		{"top left at 5 %", frame.Wedge{Fill: .10, Across: .12, TopAcross: .05}, .184, .61344},
		{"three bays", frame.Wedge{Fill: .10, Along: .10, BaysAlong: 3}, .22, .6912},
		{"the same in one", frame.Wedge{Fill: .10, Along: .10}, .46, 1.2096},
		{"five bays", frame.Wedge{Fill: .15, Along: .10, BaysAlong: 5}, .222, .8035},
	} {
		w := c.w
		w.Length, w.Width = 3.6, 1.2
		w.BaysAcross, w.BaysAlong = max(1, w.BaysAcross), max(1, w.BaysAlong)
		assert.InDelta(t, c.low, w.Low(), 1e-9, c.name)
		assert.InEpsilon(t, c.volume, w.Volume(), 1e-4, c.name)
		assert.InEpsilon(t, sliced(w), w.Volume(), 1e-9, c.name)
	}
}

// sliced adds up a wedge's depth cell by cell, bay by bay.
func sliced(w frame.Wedge) float64 {
	const n = 8
	sum := 0.0
	bw, bl := w.BayWidth(), w.BayLength()
	for i := range n {
		for j := range n {
			x, y := (float64(i)+.5)/n*bw, (float64(j)+.5)/n*bl
			sum += w.Fill + x*(w.Across-w.TopAcross) + y*(w.Along-w.TopAlong)
		}
	}
	return sum / (n * n) * w.Length * w.Width
}

// By hand: 25 mm of board stand over the compost (common practice, no source), 50 mm are
// let in: .184 + .025 + .050 and .100 + .025 + .050.
func TestBoardHeights(t *testing.T) {
	w := frame.Wedge{Length: 3.6, Width: 1.2, Fill: .10, Across: .12, TopAcross: .05, BaysAcross: 1, BaysAlong: 1}
	assert.InDelta(t, .259, w.BoardDownhill(.05), 1e-9)
	assert.InDelta(t, .175, w.BoardUphill(.05), 1e-9)
	w.Fill = .01
	assert.InDelta(t, .10, w.BoardUphill(.05), 1e-9, "at least 50 mm stands above the ground")
}

// By hand: .36 / .125 is 2.88, so 3; .36 / .075 is 4.8, so 5; .24 / .125 is 1.92, so 2.
func TestBaysFor(t *testing.T) {
	assert.Equal(t, 3, frame.BaysFor(3.6*.10, .25-.025-.10))
	assert.Equal(t, 5, frame.BaysFor(3.6*.10, .25-.025-.15))
	assert.Equal(t, 2, frame.BaysFor(4.8*.05, .30-.025-.15))
	assert.Equal(t, 3, frame.BaysFor(.45, .15), "exactly three")
	assert.Equal(t, 1, frame.BaysFor(0, .15))
	w := frame.Wedge{Length: 3.6, Width: 1.2, Fill: .1, Along: .10, BaysAcross: 1, BaysAlong: 3}
	assert.InDelta(t, .120, w.RiseAlong(), 1e-9)
	assert.Zero(t, w.RiseAcross())
}

// A top may be left at 5 % across and 3 % along, defaults of ours.
func TestTopSlopes(t *testing.T) {
	across, along := frame.TopSlopes(.12, .02)
	assert.Equal(t, []float64{.05, .02}, []float64{across, along})
	across, along = frame.TopSlopes(.01, .08)
	assert.Equal(t, []float64{.01, .03}, []float64{across, along})
}

func TestSeverity(t *testing.T) {
	words := []frame.Class{"open-edged", "boarded", "boarded with sunken edges and pegs", "stepped", "do not build here"}
	assert.Equal(t, words, frame.Classes())
	for i, c := range words {
		assert.Equal(t, i, c.Severity())
	}
	assert.Equal(t, -1, frame.Class("level").Severity())
}
