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

// Reda & Andreas 2008, Solar Position Algorithm, NREL/TP-560-34302, table A5.1: zenith
// 50.111622, azimuth 194.340241 (refraction, about 0.0164 degrees at 820 hPa, is in
// that zenith).
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

// The same table of Reda & Andreas 2008 has sunrise at 06:12:43 and sunset at 17:20:19, when the upper
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

// Meeus 1998, Astronomical Algorithms, example 25.a: declination -7d47'06" at
// 1992-10-13 0h of uniform time, then 59 s ahead of universal time.
func TestMeeusDeclination(t *testing.T) {
	p := sun.At(time.Date(1992, 10, 12, 23, 59, 1, 0, time.UTC), 0, 0)
	assert.InDelta(t, -(7 + 47.0/60 + 6.0/3600), p.Declination*degrees, 0.001)
}

// Altitude and azimuth at five places, worked by another program from the coordinates
// of Meeus 1998, chapter 25, and the equation of time of his formula 28.1, a way to the
// hour angle without sidereal time. His short series for the equation of time, 28.3, is
// off by up to 3 s, 0.012 degrees, and is not what is held to here.
func TestPositionsThroughTheYear(t *testing.T) {
	for _, c := range []struct {
		when                                   time.Time
		latitude, longitude, altitude, azimuth float64
	}{
		{time.Date(2025, 12, 21, 12, 0, 0, 0, time.UTC), 51.5, -0.12, 15.0611, 180.3151},
		{time.Date(2025, 6, 21, 12, 0, 0, 0, time.UTC), 51.5, -0.12, 61.9343, 178.8495},
		{time.Date(2025, 3, 20, 9, 0, 0, 0, time.UTC), 53.8, -1.55, 23.0857, 125.6128},
		{time.Date(2025, 2, 15, 14, 30, 0, 0, time.UTC), 52, -2, 19.8742, 213.3617},
		{time.Date(2025, 11, 5, 15, 0, 0, 0, time.UTC), 55.95, -3.19, 8.5155, 224.3099},
	} {
		p := sun.At(c.when, c.latitude, c.longitude)
		assert.InDelta(t, c.altitude, p.Altitude*degrees, 0.001, "%v", c.when)
		assert.InDelta(t, c.azimuth, p.Azimuth.Degrees(), 0.001, "%v", c.when)
	}
}

// On the day of an equinox the shade of a pole's tip runs along a line from west to
// east, h tan(latitude) north of its foot: 2.2629 m of 1.8 m at 51.5 degrees. As the
// declination drifts the line leans a little; the distances through 20 March 2025 were
// worked by another program, which takes universal time for uniform time: 68 s of drift
// are 0.03 mm.
func TestShadeAtAnEquinoxRunsStraight(t *testing.T) {
	for hour, north := range map[int]float64{9: 2.26262, 10: 2.26110, 12: 2.25871, 14: 2.25513, 15: 2.25169} {
		p := sun.At(time.Date(2025, 3, 20, hour, 0, 0, 0, time.UTC), 51.5, 0)
		_, toSun := p.Azimuth.Unit()
		assert.InDelta(t, north, -toSun*1.8/math.Tan(p.Altitude), 5e-5, "%d h", hour)
	}
	assert.InDelta(t, 2.262910, 1.8*math.Tan(51.5/degrees), 1e-6)
}

// Day lengths by the formula of Duffie & Beckman with the declination of Cooper 1969,
// 23.45 sin(360 (284+n)/365), worked by hand.
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
