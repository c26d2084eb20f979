package frame

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// leastMilder is the least depth of compost that is looked at for a milder
// edge, m; a default of ours.
const leastMilder = 0.05

// milderEdge says which single changes would let the bed have a milder class:
// less compost, the bed turned along the contour, a lesser fall. "" where a
// refusal of the place or nothing of these would.
func (c *Case) milderEdge(now Class) string {
	if now == OpenEdged || c.Refused != "" {
		return ""
	}
	var out []string
	var last Class
	add := func(class Class, how string) {
		if class == last {
			out[len(out)-1] += ", or " + how
			return
		}
		out, last = append(out, string(class)+", "+how), class
	}
	if class, less := c.lessFill(now); less > 0 {
		add(class, fmt.Sprintf("with %s less compost", millimetres(less)))
	}
	if class := c.turned(); c.Along > openAlong/2 && class.Severity() < now.Severity() {
		add(class, "if its long side were turned along the contour")
	}
	if class, fall := c.lesserFall(now); fall > 0 {
		add(class, fmt.Sprintf("if the fall under it were %s or less (now %s)", percentDown(fall), nowPercent(c.Slope, fall)))
	}
	return strings.Join(out, "; ")
}

// lessFill is how much less compost gives a milder class, to 10 mm, found by
// halving; 0 where none does.
func (c *Case) lessFill(now Class) (Class, float64) {
	with := func(n int) Class {
		k := *c
		k.Fill = c.Fill - 0.01*float64(n)
		return k.class()
	}
	low, high := 0, int(math.Floor((c.Fill-leastMilder)*100+tiny))
	if high < 1 {
		return now, 0
	}
	class := with(high)
	if class.Severity() >= now.Severity() {
		return now, 0
	}
	for high-low > 1 {
		mid := (low + high) / 2
		if k := with(mid); k.Severity() < now.Severity() {
			high, class = mid, k
		} else {
			low = mid
		}
	}
	return class, 0.01 * float64(high)
}

// turned is the class of the bed laid along the contour.
func (c *Case) turned() Class {
	k := *c
	k.Across, k.Along = math.Hypot(c.Across, c.Along), 0
	return k.class()
}

// lesserFall is the greatest fall with a milder class; 0 where none has.
func (c *Case) lesserFall(now Class) (Class, float64) {
	low, high, class := 0.0, c.Slope, c.classAt(0)
	if class.Severity() >= now.Severity() {
		return now, 0
	}
	for high-low > fallStep {
		mid := (low + high) / 2
		if k := c.classAt(mid); k.Severity() < now.Severity() {
			low, class = mid, k
		} else {
			high = mid
		}
	}
	return class, low
}

// percentDown prints a fall that must not be passed.
func percentDown(fall float64) string {
	limits := []float64{openAcross, openAlong, plainSlope, steepest, noBuildSlope}
	if i := slices.IndexFunc(limits, func(l float64) bool { return math.Abs(l-fall) <= fallStep }); i >= 0 {
		return percent(limits[i])
	}
	return decimals(math.Floor(fall*1000)/10, 1) + " %"
}
