package sun_test

import (
	"math"
	"testing"
	"time"

	"crossfall/terrain/sun"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

const degrees = 180 / math.Pi

// Reda and Andreas, Solar Position Algorithm, NREL/TP-560-34302 (2008), table
// A5.1: zenith 50.111622, azimuth
// 194.340241 (refraction, about 0.0164 degrees at 820 hPa, is in that zenith).
func TestPublishedPosition(t *testing.T) {
	p := sun.At(time.Date(2003, 10, 17, 19, 30, 30, 0, time.UTC), 39.742476, -105.1786)
	zenith := 90 - p.Altitude*degrees
	a := 90 - zenith
	refraction := 1.02 / math.Tan((a+10.3/(a+5.11))/degrees) / 60 * 820 / 1010 * 283 / 284
	parallax := 0.00244 * math.Cos(p.Altitude)
	assert.InDelta(t, 50.111622, zenith+parallax-refraction, 0.01)
	assert.InDelta(t, 194.340241, p.Azimuth.Degrees(), 0.01)
	assert.InDelta(t, -9.316179, p.Declination*degrees, 0.01)
	assert.InDelta(t, 11.105902, p.HourAngle*degrees, 0.01)
}

// The same table has sunrise at 06:12:43 and sunset at 17:20:19, when the upper
// limb stands on the horizon: 0.8333 degrees under it without refraction. The
// algorithm of the table takes the sunset within the same day of universal time,
// which is that of the evening before in local time, 1.5 minutes later.
func TestPublishedRiseAndSet(t *testing.T) {
	for _, when := range []time.Time{
		time.Date(2003, 10, 17, 13, 12, 43, 0, time.UTC), time.Date(2003, 10, 17, 0, 20, 19, 0, time.UTC),
	} {
		assert.InDelta(t, -0.8333, sun.At(when, 39.742476, -105.1786).Altitude*degrees, 0.01)
	}
}

// Meeus, Astronomical Algorithms (1998), example 25.a: declination -7d47'06" at
// 1992-10-13 0h of uniform time, then 59 s ahead of universal time.
func TestMeeusDeclination(t *testing.T) {
	p := sun.At(time.Date(1992, 10, 12, 23, 59, 1, 0, time.UTC), 0, 0)
	assert.InDelta(t, -(7 + 47.0/60 + 6.0/3600), p.Declination*degrees, 0.001)
}

// Day lengths by Duffie and Beckman's formula with Cooper's declination,
// 23.45 sin(360 (284+n)/365), worked apart.
func TestDayLength(t *testing.T) {
	for _, c := range []struct{ latitude, n, hours float64 }{
		{43, 44, 10.2147}, {51.5, 172, 16.4062}, {51.5, 355, 7.5938}, {55.9, 355, 6.6877}, {53.4, 80, 11.9275},
		{80, 172, 24}, {-80, 172, 0},
	} {
		declination := 23.45 * math.Sin(2*math.Pi*(284+c.n)/365)
		assert.InDelta(t, c.hours, sun.Length(c.latitude, declination), 0.0001)
	}
}

// A day and its sun mirror over the equator when the declination does.
func TestHemispheresMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		latitude := rapid.Float64Range(0, 89).Draw(t, "latitude")
		declination := rapid.Float64Range(-23.44, 23.44).Draw(t, "declination")
		assert.InDelta(t, sun.Length(latitude, declination), sun.Length(-latitude, -declination), 1e-9)
	})
}

// Each part of a day has the sun up, and the middle stands to the south in the
// north beyond the tropics, to the north in the south.
func TestDayIsUp(t *testing.T) {
	for _, latitude := range []float64{51.5, -37} {
		d := sun.Over(time.Date(2026, 6, 21, 0, 0, 0, 0, time.UTC), latitude, 0, 33)
		assert.Len(t, d.Sun, 33)
		for _, p := range d.Sun {
			assert.Positive(t, p.Altitude)
		}
		want := -1.0
		if latitude < 0 {
			want = 1
		}
		assert.InDelta(t, want, math.Cos(float64(d.Sun[16].Azimuth)), 1e-6)
	}
}
