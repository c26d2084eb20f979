package siting

import (
	"math"

	"crossfall/siting/bed"
	"crossfall/siting/setout"
)

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
