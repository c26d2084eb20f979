package sun

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Duffie & Beckman, example 1.6.2 (from memory), at 43 degrees north: on 13 February at
// 9:30 by the sun the zenith angle is 66.5 degrees and the sun 40.0 east of south; on 1
// July at 18:30 they are 79.6 and 112.0 west. Declinations -14 and 23.1 degrees.
func TestAnglesOfTheTextbook(t *testing.T) {
	for _, c := range []struct{ declination, hour, zenith, fromSouth float64 }{
		{-14, -37.5, 66.5, -40.0}, {23.1, 97.5, 79.6, 112.0},
	} {
		p := seen(43*radians, c.declination*radians, c.hour*radians)
		assert.InDelta(t, c.zenith, 90-p.Altitude/radians, 0.06)
		assert.InDelta(t, math.Mod(180+c.fromSouth, 360), p.Azimuth.Degrees(), 0.11, "the book's tables were worked to a tenth")
	}
}

// Meeus 1998, example 25.a (from memory): at T = -0.072183436 the sun's apparent right
// ascension is 198.38083 degrees and its declination -7.78507.
func TestApparentPlace(t *testing.T) {
	ascension, declination, _ := apparent(-0.072183436)
	assert.InDelta(t, 198.38083, math.Mod(ascension/radians+360, 360), 1e-5)
	assert.InDelta(t, -7.78507, declination/radians, 1e-5)
}
