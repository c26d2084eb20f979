package siting

import (
	"math"

	"crossfall/geodata"
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
