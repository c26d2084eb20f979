package siting

import (
	"math"

	"crossfall/geodata"
	"crossfall/siting/access"
	"crossfall/siting/bed"
	"crossfall/siting/frame"
	"crossfall/siting/takeoff"
	"crossfall/terrain/surface"

	"github.com/paulmach/orb"
)

// Carrying is how compost gets from where it comes to the beds.
type Carrying struct {
	From        []CarryFrom `json:"from"`
	BarrowWidth float64     `json:"barrow_width_m"`
	Steepest    float64     `json:"steepest_percent"` // that a way with a full load should be
	Cell        float64     `json:"cell_m"`           // of the squares in which the ways were looked for
	// Walked is all that is walked, there and back, and Climbed all that is climbed
	// with full loads, over every bed that is reached; null without one.
	Walked  *geodata.Estimate `json:"walked_m"`
	Climbed *geodata.Estimate `json:"climbed_m"`
	Notes   []string          `json:"notes"`
}

// CarryFrom is a place that compost comes from.
type CarryFrom struct {
	Said    string    `json:"said"`
	At      orb.Point `json:"at"`
	Assumed bool      `json:"assumed"`
}

// BedAccess is how one bed is reached with its compost.
type BedAccess struct {
	By   access.Means `json:"by"`
	From string       `json:"from"`
	Said string       `json:"said"`
	// InTheWay is what leaves no room, or too little, on the way, and Gap the room
	// that it leaves; empty where a barrow gets to the bed.
	InTheWay []string `json:"in_the_way"`
	Gap      float64  `json:"gap_mm"`

	Route    []Corner         `json:"route"` // east, north, height; empty where there is no way
	Length   float64          `json:"length_m"`
	Climb    geodata.Estimate `json:"climb_m"` // of each load
	Descent  float64          `json:"descent_m"`
	ByHand   float64          `json:"by_hand_m"` // of the length, too narrow for the barrow
	Hairpins int              `json:"hairpins"`
	// SteepestRise and SteepestFall are taken over a stretch of 2 m.
	SteepestRise geodata.Estimate `json:"steepest_rise_percent"`
	SteepestAt   orb.Point        `json:"steepest_rise_at"` // where that stretch begins
	SteepestFall geodata.Estimate `json:"steepest_fall_percent"`
	OverLimit    float64          `json:"steeper_than_wished_m"`
	CrossFall    float64          `json:"cross_fall_percent"` // the greatest
	// StraightRise is the mean rise of the straight line from start to bed.
	StraightRise float64 `json:"straight_rise_percent"`

	Loads geodata.Estimate `json:"loads"`
	// Push is that of a full load up the steepest rise: on a lawn, a firm path and
	// wet, soft ground.
	Push   geodata.Estimate `json:"push_newtons"`
	Advice []string         `json:"advice"`
}

// newAccess looks at where a barrow can go.
func (j judge) newAccess() *access.Ground {
	var keep []access.Keepout
	for _, h := range j.ponds {
		keep = append(keep, access.Keepout{Said: "standing water in " + h.Name, Shape: h.Shape})
	}
	return access.NewGround(j.plot, j.fit, keep, access.Limits{Width: j.brief.BarrowWidth, Gradient: j.brief.Steepest})
}

// reach finds the ways to the beds that may be built.
func (j judge) reach(decided []decision) {
	var beds []bed.Bed
	var of []int
	for i, d := range decided {
		if d.chosen.Class != frame.DoNotBuild {
			beds, of = append(beds, d.bed), append(of, i)
		}
	}
	for k, w := range j.access.Ways(beds) {
		decided[of[k]].way = &w
	}
}

// rise is the steepest rise of the way to a bed, and its length; ok is false
// where nobody gets to it.
func (d decision) rise() (gradient, length float64, ok bool) {
	if d.way == nil || d.way.Means == access.NoWay {
		return 0, 0, false
	}
	return d.way.Up.Gradient, d.way.Length, true
}

// bedAccess tells of the way to one bed; nil where none is built.
func (j judge) bedAccess(d decision) *BedAccess {
	w := d.way
	if w == nil {
		return nil
	}
	starts := j.access.Starts()
	b := &BedAccess{By: w.Means, InTheWay: append([]string{}, w.InTheWay...), Gap: w.Gap * 1000, Route: []Corner{}, Advice: []string{}}
	b.Loads = j.loads(d)
	if w.Means == access.NoWay {
		b.Said = noWaySaid(b, starts)
		return b
	}
	b.From = starts[w.Start].Said
	for i, p := range w.Points {
		b.Route = append(b.Route, Corner{p[0], p[1], w.Heights[i]})
	}
	last := len(w.Points) - 1
	b.Length, b.Descent, b.ByHand, b.Hairpins = w.Length, w.Descent, w.ByHand, w.Hairpins
	b.OverLimit, b.CrossFall = w.OverLimit, 100*w.CrossFall
	b.Climb = j.climb(w)
	b.SteepestRise, b.SteepestAt = j.steep(w.Up), w.Up.From
	b.SteepestFall = j.steep(w.Down)
	if far := math.Hypot(w.Points[last][0]-w.Points[0][0], w.Points[last][1]-w.Points[0][1]); far > 0 {
		b.StraightRise = 100 * (w.Heights[last] - w.Heights[0]) / far
	}
	b.Push = j.push(b.SteepestRise)
	b.Said = waySaid(b, w)
	b.Advice = append(b.Advice, j.wayAdvice(b, w)...)
	return b
}

// loads is how many barrow loads a bed takes.
func (j judge) loads(d decision) geodata.Estimate {
	v, load := d.compost(), j.brief.Load
	return geodata.Estimate{Value: takeoff.Loads(v.Value, load), Low: takeoff.Loads(v.Low, load), High: takeoff.Loads(v.High, load)}
}

// climb is what a load is lifted on a way in all, with the band of the height
// between its ends.
func (j judge) climb(w *access.Way) geodata.Estimate {
	_, sigma := surface.Drop(j.fit, w.Points[0], w.Points[len(w.Points)-1])
	doubt := j.fit.Quantile * sigma
	return geodata.Estimate{Value: w.Climb, Low: math.Max(0, w.Climb-doubt), High: w.Climb + doubt}
}

// steep is the gradient of a stretch in percent, with its band.
func (j judge) steep(s access.Steep) geodata.Estimate {
	length := math.Hypot(s.To[0]-s.From[0], s.To[1]-s.From[1])
	if length == 0 {
		return geodata.Estimate{}
	}
	_, sigma := surface.Drop(j.fit, s.From, s.To)
	doubt := j.fit.Quantile * sigma / length
	return geodata.Estimate{Value: s.Gradient, Low: math.Max(0, s.Gradient-doubt), High: s.Gradient + doubt}.Times(100)
}

// push is the force that keeps a full load rolling up a rise in percent.
func (j judge) push(percent geodata.Estimate) geodata.Estimate {
	rho := j.brief.density()
	mass := func(of float64) float64 { return j.brief.Barrow + j.brief.Load/1000*of }
	return geodata.Estimate{
		Value: takeoff.Push(mass(rho.Value), percent.Value/100, takeoff.RollingLawn),
		Low:   takeoff.Push(mass(rho.Low), percent.Low/100, takeoff.RollingGood),
		High:  takeoff.Push(mass(rho.High), percent.High/100, takeoff.RollingSoft),
	}
}

// describeCarrying tells of the whole job of carrying.
func (j judge) describeCarrying(beds []Bed) Carrying {
	limits := j.access.Limits()
	c := Carrying{
		From: []CarryFrom{}, BarrowWidth: limits.Width, Steepest: 100 * limits.Gradient, Cell: j.access.Cell(), Notes: []string{},
	}
	for _, s := range j.access.Starts() {
		c.From = append(c.From, CarryFrom{Said: s.Said, At: s.At, Assumed: s.Assumed})
	}
	var walked, climbed geodata.Estimate
	for _, b := range beds {
		if a := b.Access; a != nil && a.By != access.NoWay {
			add(&walked, a.Loads.Times(2*a.Length))
			add(&climbed, geodata.Estimate{Value: a.Loads.Value * a.Climb.Value, Low: a.Loads.Low * a.Climb.Low, High: a.Loads.High * a.Climb.High})
			c.Walked, c.Climbed = &walked, &climbed
		}
	}
	c.Notes = append(c.Notes, j.carryingNotes(beds)...)
	return c
}

func add(sum *geodata.Estimate, e geodata.Estimate) {
	sum.Value, sum.Low, sum.High = sum.Value+e.Value, sum.Low+e.Low, sum.High+e.High
}
