package frame

import (
	"fmt"
)

// fallStep is how closely the fall at which the class changes is found.
const fallStep = 0.0002

// atFall is the case with its fall brought to another, the direction kept.
func (c Case) atFall(slope float64) Case {
	if c.Slope == 0 {
		c.Across = slope
	} else {
		f := slope / c.Slope
		c.Across, c.Along = c.Across*f, c.Along*f
	}
	c.Slope = slope
	return c
}

// nextEdge says at which fall the bed would get a graver class, everything else
// left as it is. A steeper fall never gets a milder class, so the place of the
// change is found by halving, down to fallStep.
func (c *Case) nextEdge(now Class) string {
	if now == DoNotBuild || c.Refused != "" {
		return ""
	}
	low, class := c.Slope, c.classAt(noBuildSlope)
	if class.Severity() <= now.Severity() {
		low, class = noBuildSlope, DoNotBuild
	} else {
		for high := noBuildSlope; high-low > fallStep; {
			mid := (low + high) / 2
			if k := c.classAt(mid); k.Severity() > now.Severity() {
				high, class = mid, k
			} else {
				low = mid
			}
		}
	}
	return fmt.Sprintf("%s, if the fall under it were over %s (now %s)",
		class, percent(low), nowPercent(c.Slope, low))
}

// classAt is the class at another fall.
func (c *Case) classAt(slope float64) Class {
	k := c.atFall(slope)
	return k.class()
}

// nowPercent prints the present fall so that it does not read as the same.
func nowPercent(now, other float64) string {
	if now > 1 {
		return percent(now)
	}
	n := 1
	for n < 4 && decimals(now*100, n) == decimals(other*100, 1) {
		n++
	}
	return decimals(now*100, n) + " %"
}
