package drainage

import "github.com/paulmach/orb"

// Defaults of ours.
const (
	DefaultStep     = .1    // metres; also the longest step allowed
	DefaultMinFall  = 1e-4  // 1 in 10 000
	DefaultMaxSteps = 10000 // at most a kilometre
)

// Options says how a path is followed and where it ends.
type Options struct {
	// Plot is the ground that the path may cross; its holes are left out of
	// it. Default empty: the path is not bounded.
	Plot orb.Polygon
	// Enters marks ground, such as a bed, that ends a path on entering it. A
	// path that starts there goes on until it comes back. Default nil: none.
	Enters func(orb.Point) bool
	// MinFall ends the path where the ground is flatter. Default 1 in 10 000.
	MinFall float64
	// LeastFall, where set, is the least fall at a point that the survey can
	// tell from level ground, such as twice its standard error; the larger of
	// it and MinFall holds. Default nil.
	LeastFall func(orb.Point) float64
	Step      float64 // metres; default, and at most, .1
	MaxSteps  int     // default 10 000
}

func (o Options) resolved() Options {
	if !(o.MinFall > 0) {
		o.MinFall = DefaultMinFall
	}
	if !(o.Step > 0) || o.Step > DefaultStep {
		o.Step = DefaultStep
	}
	if o.MaxSteps <= 0 {
		o.MaxSteps = DefaultMaxSteps
	}
	return o
}

// least is the fall under which the direction at a point is unclear.
func (o Options) least(p orb.Point) float64 {
	if o.LeastFall != nil {
		if l := o.LeastFall(p); !(l <= o.MinFall) { // so that NaN is unclear too
			return l
		}
	}
	return o.MinFall
}

// EndReason says why a path ends, in words for people.
type EndReason string

// The reasons for which a path ends.
const (
	LeavesPlot       EndReason = "leaves the plot"
	EntersRegion     EndReason = "enters a bed"
	DirectionUnclear EndReason = "direction unclear"
	ReachesHollow    EndReason = "stands in a hollow"
	ReachesTop       EndReason = "reaches the top"
	GroundUnknown    EndReason = "ground not known"
	TooLong          EndReason = "too long to follow"
	StartsOutside    EndReason = "starts outside the plot"
)

// Path is a line of steepest descent or ascent.
type Path struct {
	Points []orb.Point // from the start to the end, metres; at least one
	Length float64     // along the path in plan, metres
	End    EndReason
}
