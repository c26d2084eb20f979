package siting

import (
	"math"

	"crossfall/geodata"
	"crossfall/siting/bed"
	"crossfall/siting/caution"
	"crossfall/siting/frame"
	"crossfall/siting/near"
	"crossfall/siting/setout"

	"github.com/paulmach/orb"
)

// setOut works the setting out of the beds that may be built.
func (j judge) setOut(decided []decision) setout.Sheet {
	site := setout.Site{
		Marks: j.plot.OfKind(geodata.MarkKind), Boundary: j.plot.Boundary[0],
		CornerNames: j.cornerNames(), InTheWay: j.inTheWay(), Left: []string{},
		Height:      j.heightAt,
		HeightError: j.heightError,
	}
	var outlines []near.Shape
	for _, d := range decided {
		if d.chosen.Class == frame.DoNotBuild {
			site.Left = append(site.Left, d.bed.Name)
			continue
		}
		site.Beds = append(site.Beds, j.setOutBed(d))
		outlines = append(outlines, near.Of(d.bed.Outline(d.ground.Axes)))
	}
	site.Allowed = j.caneAllowed(outlines)
	for _, s := range j.stays() {
		if site.Allowed(s.At) {
			site.Stays = append(site.Stays, s)
		}
	}
	return setout.Make(site)
}

// heightError is the standard deviation of the difference of two heights, m.
func (j judge) heightError(a, b orb.Point) float64 {
	return math.Sqrt(math.Max(0, j.fit.HeightCovariance(a, a)+j.fit.HeightCovariance(b, b)-2*j.fit.HeightCovariance(a, b)))
}

// setOutBed is one bed with its boards as they will stand.
func (j judge) setOutBed(d decision) setout.Input {
	in := setout.Input{Name: d.bed.Name, Corners: d.ground.Corners, Pegs: d.pegs}
	if d.chosen.Boards == nil || d.chosen.Pegs == nil {
		return in
	}
	t := j.tops(d)
	first, last := t.up[0], t.down[len(t.down)-1]
	n := len(first) - 1
	in.Tops = &[4]float64{first[0][0], first[n][1], last[n][1], last[0][0]}
	in.Boards = append(longBoards(d, t), shortBoards(d, t)...)
	return in
}

// tops are the heights of a frame's boards, m: of the upper and the lower long
// side of each bay, counted down the slope and then from the left, at the left
// and the right end.
type tops struct{ up, down [][][2]float64 }

// tops stands the boards on the ground at their low end, let in as designed;
// their tops fall along the bed as the compost does.
func (j judge) tops(d decision) tops {
	c, b := d.chosen, d.bed
	shape := topOf(c, d.ground)
	across, along := max(1, c.BaysAcross), max(1, c.BaysAlong)
	w, l := b.Width/float64(across), b.Length/float64(along)
	standing := func(up, bought float64) [][2]float64 {
		out := make([][2]float64, along)
		for i := range out {
			from := -b.Length/2 + float64(i)*l
			low, end := from, 0
			if d.ground.LowEndRight {
				low, end = from+l, 1
			}
			z := j.heightAt(b.Place(d.ground.Axes, low, up)) - c.Boards.Sunken + bought
			out[i][end], out[i][1-end] = z, z+shape.Along*l
		}
		return out
	}
	t := tops{up: [][][2]float64{standing(b.Width/2, c.Boards.Uphill.Bought)}}
	for k := range across {
		t.down = append(t.down, standing(b.Width/2-float64(k+1)*w, c.Boards.Downhill.Bought))
		if k == 0 {
			continue
		}
		upper := make([][2]float64, along)
		for i, z := range t.down[k] {
			upper[i] = [2]float64{z[0] + shape.Across*w, z[1] + shape.Across*w}
		}
		t.up = append(t.up, upper)
	}
	return t
}

// at is the height of the frame's top where a board across the bed stands in a
// bay: at its upper and its lower end. part is how far it stands along the bay.
func (t tops) at(across, along int, part float64) [2]float64 {
	up, down := t.up[across][along], t.down[across][along]
	return [2]float64{up[0] + part*(up[1]-up[0]), down[0] + part*(down[1]-down[0])}
}

// caneAllowed says where a cane may be pushed into the ground: in the plot, a
// hand off the beds and clear of what the cautions keep clear.
func (j judge) caneAllowed(beds []near.Shape) func(orb.Point) bool {
	type kept struct {
		shape near.Shape
		clear float64
	}
	var keep []kept
	for _, b := range beds {
		keep = append(keep, kept{b, offBeds})
	}
	for _, f := range j.plot.Fixtures {
		clear := caution.Clear(f, j.plot.Site.Place.Country)
		if f.Kind == geodata.NoGoKind {
			clear = math.Max(clear, 1e-3)
		}
		if clear > 0 {
			keep = append(keep, kept{near.Of(f.Shape), clear})
		}
	}
	plot := near.Of(j.plot.Boundary)
	return func(p orb.Point) bool {
		at := near.Of(p)
		for _, k := range keep {
			if k.shape.Closer(at, k.clear) {
				return false
			}
		}
		return plot.Closer(at, besidePlot)
	}
}

// offBeds is how far from a bed a cane is proposed, and besidePlot how far
// outside the boundary, m: defaults of ours.
const offBeds, besidePlot = 0.3, 0.05

// inTheWay are the fixtures that no tape passes through: what stands knee-high
// or more, and stems.
func (j judge) inTheWay() []orb.Geometry {
	var out []orb.Geometry
	for _, f := range j.plot.Fixtures {
		switch {
		case f.Kind == geodata.ObstacleKind && (f.TopHeight == 0 || f.TopHeight > tapedOver):
			out = append(out, f.Shape)
		case f.Kind == geodata.TreeKind && f.StemDiameter > 0:
			if p, ok := f.Shape.(orb.Point); ok {
				out = append(out, p.Bound().Pad(f.StemDiameter/2).ToPolygon())
			}
		}
	}
	return out
}

// tapedOver is the height of an obstacle over which a tape is still held, m: a
// default of ours.
const tapedOver = 0.5

// longBoards are the boards along the bed, from the uphill one down, those of
// steps along it from the left, with the pegs that stand at each.
func longBoards(d decision, t tops) []setout.Frame {
	along := max(1, d.chosen.BaysAlong)
	var pegs []float64
	for _, x := range spread(d.bed.Length, d.chosen.Pegs.PerSide) {
		pegs = append(pegs, x+d.bed.Length/2)
	}
	out := boardRow("uphill board", "on its uphill side", d, along, pegs, t.up[0])
	for k, row := range t.down {
		out = append(out, boardRow(lowerBoard(k, len(t.down)), "on its downhill side", d, along, pegs, row)...)
	}
	return out
}

// boardRow is one line of boards along the bed, a board for each step.
func boardRow(name, side string, d decision, along int, pegs []float64, heights [][2]float64) []setout.Frame {
	out := make([]setout.Frame, along)
	l := d.bed.Length / float64(along)
	for i := range out {
		out[i] = setout.Frame{Name: name, Side: side, Tops: heights[i]}
		if along > 1 {
			out[i].Name = name + ", " + stepName(i)
		}
	}
	for _, x := range pegs {
		i := min(along-1, max(0, int(math.Ceil(x/l-1e-9))-1))
		out[i].Pegs = append(out[i].Pegs, x)
	}
	return out
}

// shortBoards are the boards across the bed: its ends and its cross boards, from
// the left, with pegs measured from the uphill side.
func shortBoards(d decision, t tops) []setout.Frame {
	c, b := d.chosen, d.bed
	across, along := max(1, c.BaysAcross), max(1, c.BaysAlong)
	side := "on its left side"
	left, right := c.Pegs.PerCross, c.Pegs.PerHighEnd
	if d.ground.LowEndRight {
		side = "on its right side"
		left, right = right, left
	}
	out := acrossBed("left end board", "on its left side", b, across, left, func(k int) [2]float64 { return t.at(k, 0, 0) })
	l := b.Length / float64(along)
	for n, x := range boardsAcross(b, c) {
		from := (x + b.Length/2) / l
		bay := min(along-1, max(0, int(math.Floor(from+1e-9))))
		if d.ground.LowEndRight && from-float64(bay) < 1e-6 && bay > 0 {
			bay-- // between two steps it holds the higher one, here that to the left
		}
		part := math.Min(1, math.Max(0, from-float64(bay)))
		out = append(out, acrossBed(crossName(n, x+b.Length/2), side, b, across, c.Pegs.PerCross,
			func(k int) [2]float64 { return t.at(k, bay, part) })...)
	}
	return append(out, acrossBed("right end board", "on its right side", b, across, right, func(k int) [2]float64 { return t.at(k, along-1, 1) })...)
}

// acrossBed is one line of boards across the bed, a board for each step.
func acrossBed(name, side string, b bed.Bed, across, pegs int, heights func(bay int) [2]float64) []setout.Frame {
	out := make([]setout.Frame, across)
	w := b.Width / float64(across)
	each := pegs / across
	for k := range out {
		out[k] = setout.Frame{Name: name, Side: side, Tops: heights(k)}
		if across > 1 {
			out[k].Name = name + ", " + stepDown(k)
		}
		for i := 1; i <= each; i++ {
			out[k].Pegs = append(out[k].Pegs, w*(float64(k)+float64(i)/float64(each+1)))
		}
	}
	return out
}
