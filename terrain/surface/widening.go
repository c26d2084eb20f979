package surface

// The intervals of a smooth surface take its range, variance and noise for
// known, and ground for a Gaussian process; neither is so. How much too narrow
// they come out was measured on banks, swales, ridges and terraces, which the
// process does not describe: see TestFallCoversStrangeGround, and the table in
// DEVELOPERS.md. Standard errors are multiplied by what makes the 95 % interval
// of the fall hold the truth at least nine times in ten on each of them, over
// the plot and under beds. The factors are measured, their steps a default of ours.
const (
	// widenSmooth is for ground that the survey follows.
	widenSmooth = 1.2
	// widenUneven is for ground of which too little is known (Fit.Uneven): up
	// to 11 heights, up to 29, and from 30 on.
	widenUneven11 = 2.6
	widenUneven29 = 2.4
	widenUneven   = 1.8
)

// widening multiplies every standard error of a smooth surface of n heights.
func widening(n int, uneven bool) float64 {
	switch {
	case !uneven:
		return widenSmooth
	case n < enoughForSmooth:
		return widenUneven11
	case n < fewHeights:
		return widenUneven29
	}
	return widenUneven
}
