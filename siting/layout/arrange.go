package layout

import (
	"context"
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/bed"
	"crossfall/siting/near"
	"crossfall/terrain"
)

// Method is the kind of a layout.
type Method string

// The kinds of layout.
const (
	InRows  Method = "rows in one direction"
	InZones Method = "two zones, each with rows of its own direction"
	Singly  Method = "beds placed one by one, in any direction"
)

// Result is where the beds go, and how good that is.
type Result struct {
	Beds   []bed.Bed // in the order of their names
	Marks  []float64 // of each
	Wished int       // 0 or less: the most that fit
	Fits   int       // how many were placed
	// MostBeds is a number that no layout of these places can exceed.
	MostBeds int
	// OutOfLine is how many beds were placed in a layout that was not taken, since it
	// holds but a few more than rows of one direction; 0: there was none. It is told
	// where Most were asked for.
	OutOfLine int
	// Short says what stops the rest; empty when all fit.
	Short    string
	InTheWay []Hindrance // most places first; empty when all fit

	Method Method
	Rows   int
	// BestRows are the best beds in rows of one direction where another kind of
	// layout was taken; as many as were placed, or fewer.
	BestRows []bed.Bed
	// Bearing is that of the rows; not set unless InLine.
	Bearing terrain.Bearing
	InLine  bool // all beds share one bearing
	// Score is the sum of the marks less the cost of the rows. No layout of as
	// many beds on these places has a score over Bound.
	Score, Bound float64

	Places     int // looked at and free of all that is kept clear
	Directions int
	Step       float64 // m between places of a row
}

// Gap is by how much of its score no layout can be better.
func (r Result) Gap() float64 {
	if r.Fits == 0 || r.Score == 0 {
		return 0
	}
	return math.Max(0, (r.Bound-r.Score)/math.Abs(r.Score))
}

// proofGap is the gap under which a layout counts as proved the best.
const proofGap = 1e-6

// Proved is true where no layout of as many beds is better, and no more fit.
func (r Result) Proved() bool {
	return r.Fits > 0 && r.Gap() < proofGap && (r.Wished > 0 && r.Fits >= r.Wished || r.Fits >= r.MostBeds)
}

// Most is the count that asks for the most beds that fit, up to geodata.MostBeds.
const Most = -1

// polishMoves is how many moves each run of the annealing makes, and polishRuns
// how many runs there are; defaults of ours.
const (
	polishMoves = 20_000
	polishRuns  = 4
)

// Arrange places count beds, or Most, round those that are pinned and clear of
// more keepouts than the survey knew. That fewer fit than were wished is no
// error; the error is ctx.Err() wrapped, or of a keepout that cannot be measured.
//
// Beds in rows of one direction are taken unless another layout holds more beds,
// where Most are asked for one in twenty more, or is better by more than
// Options.NeatGain.
func (p *Places) Arrange(ctx context.Context, count int, pinned []bed.Bed, more []Keepout) (Result, error) {
	r, err := p.arrange(ctx, count, pinned, more)
	if err != nil {
		return Result{}, fmt.Errorf("arrange beds: %w", err)
	}
	return r, nil
}

func (p *Places) arrange(ctx context.Context, count int, pinned []bed.Bed, more []Keepout) (Result, error) {
	r := Result{Wished: count, Places: p.Count(), Directions: p.Directions(), Step: p.Step(), InLine: true, Method: InRows}
	if err := checkKeepouts(more); err != nil || count == 0 {
		return r, err
	}
	a := arranger{p: p, f: p.field, want: p.s.wish.demands(), count: count}
	if count < 0 {
		a.count, a.most = geodata.MostBeds, true
	}
	added := barriersOf(append(pinnedKeepouts(pinned, p.s.wish.Path), more...))
	a.usable = p.usable(added)
	if err := a.search(ctx); err != nil {
		return r, err
	}
	r.Method, r.Fits, r.MostBeds = a.method, len(a.chosen), a.mostBeds
	r.OutOfLine = a.outOfLine
	r.Score, r.Bound, r.Rows = p.field.score(a.chosen), a.bound, p.field.rowsUsed(a.chosen)
	r.Beds, r.Marks = p.named(a.chosen, pinned)
	r.Bearing, r.InLine = inLine(r.Beds)
	if r.Method != InRows {
		r.BestRows, _ = p.named(a.inRows, pinned)
	}
	if count > 0 && r.Fits < count {
		r.InTheWay = p.inTheWay(a, added)
		r.Short = p.short(r)
	}
	return r, nil
}

// usable tells which places the added keepouts leave.
func (p *Places) usable(added []barrier) []bool {
	out := make([]bool, len(p.field.sites))
	for i, s := range p.field.sites {
		b := p.bedAt(s)
		reach := math.Hypot(b.Length, b.Width) / 2
		out[i] = true
		var shape near.Shape
		for _, k := range added {
			away := math.Hypot(
				math.Max(0, math.Max(k.shape.Bound.Min[0]-s.x, s.x-k.shape.Bound.Max[0])),
				math.Max(0, math.Max(k.shape.Bound.Min[1]-s.y, s.y-k.shape.Bound.Max[1])))
			if away > reach+k.clear {
				continue
			}
			if !shape.Measurable() {
				shape = near.Of(b.Footprint())
			}
			if k.stops(b, shape) {
				out[i] = false
				break
			}
		}
	}
	return out
}

func (p *Places) bedAt(s site) bed.Bed {
	return bed.New("", [2]float64{s.x, s.y}, p.field.directions[s.direction].bearing, p.field.length, p.field.width)
}

func inLine(beds []bed.Bed) (terrain.Bearing, bool) {
	for _, b := range beds {
		if math.Abs(float64(b.LongSide-beds[0].LongSide)) > 1e-12 {
			return 0, false
		}
	}
	if len(beds) == 0 {
		return 0, true
	}
	return beds[0].LongSide, true
}

// arranger is one search among the places.
type arranger struct {
	p         *Places
	f         *field
	want      demands
	count     int
	most      bool // count is the most that are looked for, and not wished
	usable    []bool
	chosen    []int
	inRows    []int // the best in rows of one direction
	method    Method
	bound     float64
	mostBeds  int
	outOfLine int // beds of the largest layout that was not taken
	limits    *bounds
}

// search tries the kinds of layout in turn, as long as another may be better.
func (a *arranger) search(ctx context.Context) error {
	rows, err := a.f.allRows(ctx, a.want, a.usable, a.count)
	if err != nil {
		return err
	}
	a.method, a.chosen = InRows, a.f.traceRows(rows, rows.fits(), a.want, a.usable)
	a.inRows = a.chosen
	if err := a.limit(ctx); err != nil || !a.promising() {
		return err
	}
	fits := len(a.chosen)
	zones, ok, err := a.f.inZones(ctx, cutsOf(a.p.s.plot.Boundary), a.want, a.usable, a.count)
	if err != nil {
		return err
	}
	starts := [][]int{a.chosen}
	if ok {
		parted := a.f.traceZones(zones, a.want, a.usable)
		starts = append(starts, parted)
		a.prefer(parted, InZones)
	}
	if a.p.s.wish.free() {
		for len(starts) < polishRuns {
			starts = append(starts, nil)
		}
		single, err := a.f.polish(ctx, starts, a.usable, a.count, polishMoves)
		if err != nil {
			return err
		}
		a.prefer(single, Singly)
	}
	if len(a.chosen) == fits && a.method == InRows {
		return nil
	}
	return a.limit(ctx)
}

// NeatBedsIn is of how many beds one more must be had; a default of ours.
const NeatBedsIn = 20

// neatBeds is by what part another layout must hold more beds than rows of one
// direction where the most that fit are asked for: fewer more are not worth rows that
// lie askew.
const neatBeds = 1.0 / NeatBedsIn

// prefer takes another layout where it holds more beds or is clearly better.
func (a *arranger) prefer(chosen []int, m Method) {
	score, more := a.f.score(a.chosen), len(chosen)-len(a.chosen)
	enough := more > 0
	if a.most {
		enough = float64(more) > neatBeds*float64(len(a.chosen))
	}
	if enough || more == 0 && a.f.score(chosen) > score+a.p.s.opt.NeatGain*math.Abs(score) {
		a.chosen, a.method, a.outOfLine = chosen, m, 0
	} else if more > 0 {
		a.outOfLine = max(a.outOfLine, len(chosen))
	}
}

// limit works out the bounds for as many beds as are placed.
func (a *arranger) limit(ctx context.Context) error {
	if a.limits == nil {
		a.limits = &bounds{f: a.f, usable: a.usable, steps: boundSteps}
		if a.p.s.wish.Pairs { // layouts in pairs need less room
			closer := *a.f
			closer.path = a.want.pairPath
			a.limits.f = &closer
		}
	}
	var err error
	if a.mostBeds, err = a.limits.beds(ctx, a.count, len(a.chosen)); err != nil {
		return err
	}
	a.bound, err = a.limits.score(ctx, len(a.chosen), a.f.score(a.chosen))
	return err
}

// promising is true while the bounds leave room for a layout that would be taken.
func (a *arranger) promising() bool {
	score := a.f.score(a.chosen)
	return a.mostBeds > len(a.chosen) || a.bound > score+a.p.s.opt.NeatGain*math.Abs(score)
}
