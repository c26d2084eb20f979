package levelbook

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// ParseBearing reads a bearing as people write it and gives radians clockwise,
// 0 to 2π: decimal degrees "35.5", degrees, minutes and seconds "35-30-00" or
// 35°30', and quadrant bearings "S68-05-35W".
func ParseBearing(text string) (float64, error) {
	s := strings.ToUpper(strings.TrimSpace(text))
	wrong := fmt.Errorf("%q is not a bearing", text)
	if len(s) > 2 && strings.ContainsRune("NS", rune(s[0])) && strings.ContainsRune("EW", rune(s[len(s)-1])) {
		d, ok := dms(s[1 : len(s)-1])
		if !ok || d > 90 {
			return 0, wrong
		}
		switch s[:1] + s[len(s)-1:] {
		case "SE":
			d = 180 - d
		case "SW":
			d = 180 + d
		case "NW":
			d = math.Mod(360-d, 360)
		}
		return radians(d), nil
	}
	d, ok := dms(s)
	if !ok || d > 360 {
		return 0, wrong
	}
	return radians(math.Mod(d, 360)), nil
}

// dms reads degrees, minutes and seconds without a sign.
func dms(s string) (degrees float64, ok bool) {
	if strings.HasPrefix(strings.TrimSpace(s), "-") {
		return 0, false
	}
	s = strings.NewReplacer("DEGREES", " ", "DEG", " ", "°", " ", "º", " ", "'", " ", "\u2032", " ", "\u2019", " ", "\"", " ", "\u2033", " ", "\u201d", " ", "-", " ", ":", " ").Replace(s)
	parts := strings.Fields(s)
	if len(parts) == 0 || len(parts) > 3 {
		return 0, false
	}
	unit := 1.0
	for i, p := range parts {
		v, ok := unsigned(p)
		if !ok || i > 0 && v >= 60 || i+1 < len(parts) && v != math.Trunc(v) {
			return 0, false
		}
		degrees, unit = degrees+v*unit, unit/60
	}
	return degrees, true
}

// unsigned reads digits with at most one point.
func unsigned(s string) (float64, bool) {
	if s == "" || strings.Trim(s, "0123456789.") != "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil && !math.IsInf(v, 0)
}

// ParseAngle reads an angle of a slope and gives radians: degrees "-4.5" or
// 4°30', percent "8.3 %", "12.5 mm per m" or "12.5 mm/m", or "1 in 12" (rise in
// plan distance). Only angles under 90 degrees are taken. "1:12" is refused: it
// may be a slope, either way up, or degrees and minutes.
func ParseAngle(text string) (float64, error) {
	s := strings.NewReplacer("\u2212", "-", "\u2013", "-").Replace(strings.ToUpper(strings.TrimSpace(text)))
	wrong := fmt.Errorf("%q is not an angle", text)
	sign := 1.0
	if strings.HasPrefix(s, "-") || strings.HasPrefix(s, "+") {
		if s[0] == '-' {
			sign = -1
		}
		s = strings.TrimSpace(s[1:])
	}
	if percent, found := strings.CutSuffix(s, "%"); found {
		v, ok := unsigned(strings.TrimSpace(percent))
		if !ok {
			return 0, wrong
		}
		return sign * math.Atan(v/100), nil
	}
	for _, ending := range []string{"MM/M", "MM PER M"} {
		if mm, found := strings.CutSuffix(s, ending); found {
			v, ok := unsigned(strings.TrimSpace(mm))
			if !ok {
				return 0, wrong
			}
			return sign * math.Atan(v/1000), nil
		}
	}
	if strings.HasPrefix(s, "1:") {
		return 0, wrong
	}
	if one, n, found := strings.Cut(s, "IN"); found {
		v, ok := unsigned(strings.TrimSpace(n))
		if strings.TrimSpace(one) != "1" || !ok || v == 0 {
			return 0, wrong
		}
		return sign * math.Atan(1/v), nil
	}
	d, ok := dms(s)
	if !ok || d >= 90 {
		return 0, wrong
	}
	return sign * radians(d), nil
}
