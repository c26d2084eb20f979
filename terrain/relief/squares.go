package relief

// segment joins two sides of a square; both the same means no segment.
type segment struct{ from, to int8 }

// The sides of a square.
const (
	southSide = iota
	eastSide
	northSide
	westSide
)

// segmentsOf has the segments by high corners. Going round a square against
// the clock, a segment starts on the side where the corners turn high and ends
// on the one where they turn low again; that keeps the high ground on the
// right. Rows 5 and 10 join the two high corners; splitSaddle parts them.
var segmentsOf = [16][2]segment{
	1:  {{westSide, southSide}},
	2:  {{southSide, eastSide}},
	3:  {{westSide, eastSide}},
	4:  {{eastSide, northSide}},
	5:  {{eastSide, southSide}, {westSide, northSide}},
	6:  {{southSide, northSide}},
	7:  {{westSide, northSide}},
	8:  {{northSide, westSide}},
	9:  {{northSide, southSide}},
	10: {{southSide, westSide}, {northSide, eastSide}},
	11: {{northSide, eastSide}},
	12: {{eastSide, westSide}},
	13: {{eastSide, southSide}},
	14: {{southSide, westSide}},
}

var splitSaddle = map[int][2]segment{
	5:  {{westSide, southSide}, {eastSide, northSide}},
	10: {{southSide, eastSide}, {northSide, westSide}},
}

// saddleSegments gives the segments of a square whose four sides are all
// crossed, from its corners' heights measured from the level.
func saddleSegments(high int, sw, se, ne, nw float64) [2]segment {
	// The height of the saddle above the level is (nw se - ne sw)/(nw + se -
	// ne - sw); the divisor is under 0 when south-west and north-east are the
	// high corners and over 0 when they are the low ones.
	product := nw*se - ne*sw
	joined := (high == 5 && product <= 0) || (high == 10 && product >= 0)
	if joined {
		return segmentsOf[high]
	}
	return splitSaddle[high]
}
