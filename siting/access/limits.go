package access

import "math"

// Limits are what a way must keep to. The zero value of a field takes its default.
type Limits struct {
	Width    float64 // of the barrow and the hands that push it, m
	Gradient float64 // greatest along the way with a full load, rise over length
}

const (
	// DefaultWidth of a barrow, and FootWidth of a side path walked without one, m
	// (common practice, no source).
	DefaultWidth = 0.60
	FootWidth    = 0.45

	// DefaultGradient is the steepest that a ramp to be used on one's own may be:
	// 1 in 12 (ADA Standards for Accessible Design, 2010, 405.2). That it is also
	// fair for a loaded barrow is a judgement of ours: at 80 kg in all on a firm
	// path it takes 9 kgf, under the 10 kgf that the Health and Safety Executive
	// gives men as the guideline for keeping a load moving (INDG143).
	DefaultGradient = 1.0 / 12
	// ShortPull is the steepest that is called a pull, and not carrying in smaller
	// loads, over a stretch of up to ShortPullLength: a default of ours.
	ShortPull       = 1.0 / 8
	ShortPullLength = 3.0 // m
	// CrossFall is the steepest across the way on which a barrow is wheeled without
	// cutting the path level: a default of ours. A made ramp falls no more than 1
	// in 48 across (the same standards, 405.3).
	CrossFall = 1.0 / 10
	// Landing is the least length of a level place to turn or rest, m (Approved
	// Document M to the Building Regulations for England, ramps).
	Landing = 1.2

	// BarrowLength is that of a barrow and the hands that push it, m: the least that
	// it is pushed straight on after a turn on the spot (common practice, no source).
	BarrowLength = 1.5

	// Stretch is the length over which a gradient is taken, m, about the run of a
	// barrow before it stops: a default of ours.
	Stretch = 2.0
)

func (l Limits) filled() Limits {
	if !(l.Width > 0) {
		l.Width = DefaultWidth
	}
	if !(l.Gradient > 0) {
		l.Gradient = DefaultGradient
	}
	return l
}

// Cost of a metre of way, beside its length; defaults of ours. A metre at the
// greatest gradient counts double, so that a way on steep ground climbs at that
// gradient and no gentler; one off the drawn paths counts half as much again,
// near what the rolling on grass takes more at 1 in 12.
const (
	climbWeight  = 1.0
	offPath      = 1.5
	tooSteep     = 40.0 // for each whole gradient over the greatest, so that it comes first
	acrossWeight = 1.0  // for each whole CrossFall over the first
	turnWeight   = 3 * Landing / math.Pi
)
