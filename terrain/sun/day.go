package sun

import (
	"math"
	"time"
)

// Day is the sun's way over one place from rise to set.
type Day struct {
	Length float64    // hours with the sun's centre over the level horizon
	Sun    []Position // at the middles of equal parts of that time
}

// Over is a day in so many equal parts (1 or more), at a latitude and longitude,
// degrees. The declination of its solar noon is kept through the day: it moves
// by at most 0.1 degrees in six hours.
func Over(date time.Time, latitude, longitude float64, parts int) Day {
	noon := time.Date(date.Year(), date.Month(), date.Day(), 12, 0, 0, 0, time.UTC).
		Add(-time.Duration(longitude / 15 * float64(time.Hour)))
	declination := At(noon, latitude, longitude).Declination
	d := Day{Length: Length(latitude, declination/radians)}
	half := d.Length / 2 * 15 * radians
	for i := range parts {
		if d.Length == 0 {
			break
		}
		hour := half * (2*(float64(i)+0.5)/float64(parts) - 1)
		d.Sun = append(d.Sun, seen(latitude*radians, declination, hour))
	}
	return d
}

// Length is the hours that the sun's centre is over the level horizon, without
// refraction, at a latitude and declination in degrees: 0 in the polar night and
// 24 in the polar day. Duffie and Beckman, Solar Engineering of Thermal
// Processes, chapter 1. Refraction and the disc make a day of the almanac 0.12
// to 0.17 h longer at middle latitudes.
func Length(latitude, declination float64) float64 {
	c := -math.Tan(latitude*radians) * math.Tan(declination*radians)
	return 2.0 / 15 * math.Acos(max(-1, min(1, c))) / radians
}
