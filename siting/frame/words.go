package frame

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// decimals prints v with at most n decimals and no trailing noughts.
func decimals(v float64, n int) string {
	s := strconv.FormatFloat(v, 'f', n, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// percent is a fall; past 100 % its size says no more.
func percent(slope float64) string {
	if slope > 1 {
		return "more than 100 %"
	}
	return decimals(slope*100, 1) + " %"
}

func millimetres(m float64) string   { return decimals(m*1000, 0) + " mm" }
func metres(m float64) string        { return decimals(m, 2) + " m" }
func degrees(radians float64) string { return decimals(radians*180/math.Pi, 0) + " degrees" }
func tens(v float64) string          { return decimals(math.Round(v/10)*10, 0) }

// joined puts the first two reasons in a row; more would hide them.
func joined(reasons []string) string {
	return strings.Join(reasons[:min(2, len(reasons))], ", and ")
}

// under prints a figure that lies under a limit rounded down, so that it never
// reads as if the limit had been met.
func under(v, limit float64) string {
	f := math.Floor(v*10) / 10
	if f == 0 && v > 0 {
		return "under 0.1"
	}
	return decimals(math.Min(f, limit), 1)
}

// past prints a value that lies over a limit with as many decimals, from n up
// to three, as show that it does.
func past(v, limit float64, n int) string {
	for n < 3 && decimals(v, n) == decimals(limit, n) {
		n++
	}
	return decimals(v, n)
}

// overPercent says that a fall is over its limit.
func overPercent(fall, limit float64) string {
	said := past(fall*100, limit*100, 1) + " %"
	if fall > 1 {
		said = percent(fall)
	}
	return fmt.Sprintf("%s (over %s)", said, percent(limit))
}

// overSheet says the same of a depth of water.
func overSheet(v, limit float64) string {
	return fmt.Sprintf("%s mm (over %s)", past(v*1000, limit*1000, 1), millimetres(limit))
}

// overMillimetres says the same of a length.
func overMillimetres(v, limit float64) string {
	return fmt.Sprintf("%s mm (over %s)", past(v*1000, limit*1000, 0), millimetres(limit))
}
