package erosion

import (
	"math"

	"crossfall/geodata"
)

// Cover is what lies on the ground over a winter.
type Cover string

// The four covers that are set side by side.
const (
	Bare      Cover = "bare"
	Grassed   Cover = "grassed"
	Mulched   Cover = "mulched"
	SheetLaid Cover = "covered with a sheet"
)

// Covers lists them, barest first.
func Covers() []Cover { return []Cover{Bare, Grassed, Mulched, SheetLaid} }

// mulchPercent is the share of the ground that a mulch is taken to hide; a
// default of ours.
const mulchPercent = 70.0

// factor is C, the loss under a cover over that of bare tilled ground. Grass:
// an established lawn, .003 to .01 (Agriculture Handbook 537, 1978, from
// memory). Mulch over 70 % of the ground: exp(-b Sp) with b .035, from .05 where
// rills rule to .025 where splash does (Agriculture Handbook 703, 1997, chapter
// 5). Nothing is loosened under a sheet pegged down (common practice, no source).
func (c Cover) factor() geodata.Estimate {
	switch c {
	case Grassed:
		return geodata.Estimate{Value: .005, Low: .003, High: .01}
	case Mulched:
		return geodata.Estimate{Value: surfaceCover(mulchPercent, .035), Low: surfaceCover(mulchPercent, .05), High: surfaceCover(mulchPercent, .025)}
	case SheetLaid:
		return geodata.Estimate{}
	}
	return geodata.Exactly(1)
}

// surfaceCover is the share of the loss that a mulch over so many percent of
// the ground leaves.
func surfaceCover(percent, b float64) float64 { return math.Exp(-b * percent) }
