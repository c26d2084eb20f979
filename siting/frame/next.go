package frame

import "fmt"

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
// left as it is. Falls are tried 2 % apart and then halved down to
// 0.02 %.
func (c *Case) nextEdge(now Class) string {
	if now == DoNotBuild || c.Refused != "" {
		return ""
	}
	low := c.Slope
	for low < noBuildSlope+tiny {
		high := low + 0.02
		class := c.classAt(high)
		if class.Severity() <= now.Severity() {
			low = high
			continue
		}
		for high-low > 0.0002 {
			mid := (low + high) / 2
			if k := c.classAt(mid); k.Severity() > now.Severity() {
				high, class = mid, k
			} else {
				low = mid
			}
		}
		return fmt.Sprintf("%s, if the fall under it were over %s (now %s)",
			class, percent(low), nowPercent(c.Slope, low))
	}
	return ""
}

// classAt is the class at another fall.
func (c *Case) classAt(slope float64) Class {
	k := c.atFall(slope)
	return k.judged().class
}

// nowPercent prints the present fall so that it reads as less than the next.
func nowPercent(now, next float64) string {
	if percent(now) == percent(next) {
		return decimals(now*100, 2) + " %"
	}
	return percent(now)
}
