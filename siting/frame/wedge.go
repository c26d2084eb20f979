package frame

import "math"

// Parts splits a fall into its parts across and along a bed, given the bearing
// of the bed's long side and that of the steepest descent, both in radians.
// across^2 + along^2 = slope^2.
func Parts(slope, longSide, downhill float64) (across, along float64) {
	sin, cos := math.Sincos(longSide - downhill)
	return slope * math.Abs(sin), slope * math.Abs(cos)
}

// Slopes that a grower accepts on the top of a bed rather than fill it level:
// defaults of ours.
const (
	topAcross = 0.05
	topAlong  = 0.03
)

// TopSlopes are the slopes left on the top of a bed on ground that falls by
// these ratios across and along.
func TopSlopes(across, along float64) (topW, topL float64) {
	return math.Min(across, topAcross), math.Min(along, topAlong)
}

// Wedge is the fill of a bed on plane ground, in equal bays that step with the
// ground. All lengths m, slopes ratios; every bay is Fill deep at its highest
// corner.
type Wedge struct {
	Length, Width         float64
	Fill                  float64
	Across, Along         float64 // fall of the ground
	TopAcross, TopAlong   float64 // fall left on the top, not over that of the ground
	BaysAcross, BaysAlong int     // at least 1
	// Bend is how much deeper the fill stands at the worst place because the
	// ground is no plane: it counts at every board, and by half in the mean.
	Bend float64
}

// BayWidth is the plan width of a bay.
func (w Wedge) BayWidth() float64 { return w.Width / float64(w.BaysAcross) }

// BayLength is the plan length of a bay.
func (w Wedge) BayLength() float64 { return w.Length / float64(w.BaysAlong) }

// gain across and along is how much deeper a bay is on its low side, m.
func (w Wedge) gainAcross() float64 { return w.BayWidth() * (w.Across - w.TopAcross) }
func (w Wedge) gainAlong() float64  { return w.BayLength() * (w.Along - w.TopAlong) }

// Low is the depth at the low corner of a bay: the greatest height that a board
// retains.
func (w Wedge) Low() float64 { return w.Fill + w.gainAcross() + w.gainAlong() + w.Bend }

// UphillLow is the greatest depth along the uphill long side of a bay.
func (w Wedge) UphillLow() float64 { return w.Fill + w.gainAlong() + w.Bend }

// HighEndLow is the greatest depth along the higher end of a bay.
func (w Wedge) HighEndLow() float64 { return w.Fill + w.gainAcross() + w.Bend }

// Mean is the mean depth.
func (w Wedge) Mean() float64 { return w.Fill + (w.gainAcross()+w.gainAlong()+w.Bend)/2 }

// Volume is that of the fill, m3; exact on plane ground without a bend.
func (w Wedge) Volume() float64 { return w.Length * w.Width * w.Mean() }

// RiseAcross is the level difference between the same points of neighbouring
// bays across the bed, m; 0 without steps that way.
func (w Wedge) RiseAcross() float64 { return rise(w.Width*w.Across, w.BaysAcross) }

// RiseAlong is the same along the bed.
func (w Wedge) RiseAlong() float64 { return rise(w.Length*w.Along, w.BaysAlong) }

func rise(fall float64, bays int) float64 {
	if bays < 2 {
		return 0
	}
	return fall / float64(bays)
}

// BaysFor is the least number of equal parts, at least 1, of at most limit (over
// 0) each: of level bays in which a fall is taken up in rises, of spans in which
// a board is pegged.
func BaysFor(whole, limit float64) int {
	return max(1, int(math.Ceil(whole/limit-tiny)))
}

// tiny is the difference that lengths in metres and slopes may have and still
// count as equal, so that 0.2 worked out by a square root is not over 0.2.
const tiny = 1e-9

// freeboard is what a board stands above the fill, and leastUpstand what an
// uphill board stands above the ground to turn a sheet of water, m: common
// practice and a default of ours.
const (
	freeboard    = 0.025
	leastUpstand = 0.05
)

// BoardDownhill is the height needed of the downhill board when let in by
// sunken metres: depth at its deepest point, freeboard and the part in the
// ground.
func (w Wedge) BoardDownhill(sunken float64) float64 { return w.Low() + freeboard + sunken }

// BoardUphill is the height needed of the uphill board.
func (w Wedge) BoardUphill(sunken float64) float64 {
	return math.Max(w.UphillLow()+freeboard, leastUpstand) + sunken
}
