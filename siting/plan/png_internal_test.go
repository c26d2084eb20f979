package plan

import (
	"bytes"
	"image/png"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// coverage is the area in mm2 that a drawing covers with ink, by the darkness of
// the picture's dots.
func coverage(t *testing.T, draw func(Drawing)) float64 {
	t.Helper()
	const dpi = 254 // ten dots a millimetre
	var b bytes.Buffer
	require.NoError(t, Figure{Width: 60, Height: 40, draw: draw}.PNG(&b, dpi))
	picture, err := png.Decode(&b)
	require.NoError(t, err)
	require.Equal(t, 600, picture.Bounds().Dx())
	dark := 0.0
	for y := range picture.Bounds().Dy() {
		for x := range picture.Bounds().Dx() {
			r, _, _, _ := picture.At(x, y).RGBA()
			dark += 1 - float64(r)/0xffff
		}
	}
	return dark / 100
}

// Areas by school geometry: what is drawn is as large as it should be, and a
// line that crosses itself or lies on itself is inked once.
func TestPictureCoversWhatItShould(t *testing.T) {
	black := Style{Stroke: "#000000", Width: 1}
	line := func(s Style, pts ...orb.Point) func(Drawing) { return func(d Drawing) { d.Line(pts, s) } }
	dashes := black
	dashes.Dash = []float64{3, 1}
	for _, tt := range []struct {
		name string
		draw func(Drawing)
		want float64
	}{
		{"a level line of 40 by 1 mm", line(black, orb.Point{10, 20}, orb.Point{50, 20}), 40},
		{"a line aslant, 3-4-5", line(black, orb.Point{10, 5}, orb.Point{34, 37}), 40},
		{"there and back", line(black, orb.Point{10, 20}, orb.Point{50, 20}, orb.Point{10, 20}), 40 + math.Pi/8},
		{"dashes, three of four", line(dashes, orb.Point{10, 20}, orb.Point{50, 20}), 30},
		{"a filled triangle", func(d Drawing) { d.Polygon([]orb.Point{{10, 10}, {40, 10}, {10, 30}}, Style{Fill: "#000000"}) }, 300},
		{"the rim of a square, its corners round", func(d Drawing) { d.Polygon(rectangle(orb.Point{30, 20}, 20, 20), black) }, 80 - 4*.25 + math.Pi/4},
		{"a line half off the paper", line(black, orb.Point{-20, 20}, orb.Point{20, 20}), 20},
	} {
		assert.InEpsilon(t, tt.want, coverage(t, tt.draw), .01, tt.name)
	}
}

// A full stop in the middle of a word keeps its place when the word is turned.
func TestTurnedTextTurnsAboutItsPoint(t *testing.T) {
	face, err := newTypeface()
	require.NoError(t, err)
	level := face.outline("H", TextStyle{Size: 10})
	turned := face.outline("H", TextStyle{Size: 10, Turn: 90})
	require.Len(t, level, 1)
	a, b := orb.MultiPoint(level[0]).Bound(), orb.MultiPoint(turned[0]).Bound()
	assert.InDelta(t, -a.Bottom(), b.Right(), .01, "what was on top is at the right")
	assert.InDelta(t, a.Left(), b.Bottom(), .01)
	assert.InDelta(t, 0, a.Center()[1], .3, "the point is half-way up the capitals")
	assert.InDelta(t, 7.23, a.Top()-a.Bottom(), .05, "capitals of the typeface are 0.723 of its size")
}

func TestPictureOfAnotherFinenessIsRefused(t *testing.T) {
	for _, dpi := range []float64{1, 29, 601, math.NaN(), math.Inf(1), -150} {
		assert.ErrorContains(t, Figure{Width: 10, Height: 10, draw: func(Drawing) {}}.PNG(&bytes.Buffer{}, dpi), "30 to 600 dots an inch")
	}
}
