// Package sun says where the sun stands and how long it shines on a place: the
// hours of direct sun on a clear day, with what stands about and the ground
// itself in the way. It knows nothing of cloud, and gives no energy.
package sun

import (
	"math"
	"time"

	"crossfall/terrain"
)

// Position is where the centre of the sun stands, seen from one place.
type Position struct {
	Altitude    float64         // radians over the level horizon, without refraction
	Azimuth     terrain.Bearing // clockwise from true north
	Declination float64         // radians
	HourAngle   float64         // radians, -pi to pi, 0 at solar noon, afternoon positive
}

const radians = math.Pi / 180

// clock is how far uniform time runs ahead of universal time, s: 64 to 69 from
// 2000 to 2026. The sun moves 0.0008 degrees in it.
const clock = 68.0

// At is the position of the sun at a time, seen from a latitude and longitude,
// degrees, north and east positive. Low-accuracy solar coordinates and apparent
// sidereal time of Meeus, Astronomical Algorithms (2nd ed. 1998), chapters 12
// and 25: within 0.01 degrees from 1950 to 2050.
func At(when time.Time, latitude, longitude float64) Position {
	days := float64(when.Unix())/86400 + 2440587.5 - 2451545.0 + float64(when.Nanosecond())/86400e9
	t := (days + clock/86400) / 36525
	ascension, declination, turn := apparent(t)
	sidereal := 280.46061837 + 360.98564736629*days + 0.000387933*t*t + turn
	hour := math.Remainder(sidereal*radians+longitude*radians-ascension, 2*math.Pi)
	return seen(latitude*radians, declination, hour)
}

// apparent is the sun's apparent right ascension and declination, radians, t
// Julian centuries after J2000, and the equation of the equinoxes, degrees.
func apparent(t float64) (ascension, declination, equinoxes float64) {
	l0 := 280.46646 + 36000.76983*t + 0.0003032*t*t
	m := (357.52911 + 35999.05029*t - 0.0001537*t*t) * radians
	c := (1.914602-0.004817*t-0.000014*t*t)*math.Sin(m) + (0.019993-0.000101*t)*math.Sin(2*m) + 0.000289*math.Sin(3*m)
	node := (125.04 - 1934.136*t) * radians
	longitude := (l0 + c - 0.00569 - 0.00478*math.Sin(node)) * radians
	obliquity := (23.43929111 - (46.8150*t+0.00059*t*t-0.001813*t*t*t)/3600 + 0.00256*math.Cos(node)) * radians
	ascension = math.Atan2(math.Cos(obliquity)*math.Sin(longitude), math.Cos(longitude))
	declination = math.Asin(math.Sin(obliquity) * math.Sin(longitude))
	return ascension, declination, -0.00478 * math.Sin(node) * math.Cos(obliquity)
}

// seen is the position at an hour angle, all in radians.
func seen(latitude, declination, hour float64) Position {
	sinLat, cosLat := math.Sincos(latitude)
	sinDec, cosDec := math.Sincos(declination)
	sinHour, cosHour := math.Sincos(hour)
	altitude := math.Asin(max(-1, min(1, sinLat*sinDec+cosLat*cosDec*cosHour)))
	azimuth := math.Pi + math.Atan2(sinHour*cosDec, cosHour*sinLat*cosDec-sinDec*cosLat)
	return Position{altitude, terrain.Bearing(azimuth).Normal(), declination, hour}
}
