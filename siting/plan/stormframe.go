package plan

import (
	"fmt"

	"crossfall/siting"

	"github.com/paulmach/orb"
)

// stormWide is the width of a small plan of a storm, mm; a default of ours.
const stormWide = 56.0

// inked are the least depths, mm, and the share of a square's side that is inked.
var inked = [...]struct{ depth, side float64 }{{30, 1}, {10, .75}, {3, .5}, {1, .25}}

// StormFigure is a small plan of the depth of water at one time of a storm: the
// deeper, the larger the ink in each square. North is at the top as on the plan.
func StormFigure(f siting.StormFrame, a *siting.Assessment) Figure {
	k := stormWide / float64(max(1, f.Cols)) // mm on paper for one square
	title := fmt.Sprintf("Depth of water over the plot after %.0f minutes", f.Minutes)
	return Figure{stormWide, k * float64(f.Rows), title, wetSaid(f), func(d Drawing) {
		for i, depth := range f.Depth {
			if depth == nil {
				continue
			}
			for _, ink := range inked {
				if *depth >= ink.depth {
					at := orb.Point{k * (float64(i%f.Cols) + .5), k * (float64(f.Rows-1-i/f.Cols) + .5)}
					d.Polygon(rectangle(at, k*ink.side, k*ink.side), Style{Fill: Accent, Class: "storm-depth"})
					break
				}
			}
		}
		on := func(p orb.Point) orb.Point {
			return orb.Point{k * (p[0] - f.Origin[0]) / f.Square, k * (float64(f.Rows) - (p[1]-f.Origin[1])/f.Square)}
		}
		outline := Style{Stroke: Black, Width: .3, Class: "storm-outline"}
		var rim []orb.Point
		for _, p := range a.Frame.Boundary {
			rim = append(rim, on(p))
		}
		d.Polygon(rim, outline)
		for _, b := range a.Beds {
			if b.Build == nil {
				continue
			}
			var side []orb.Point
			for _, c := range b.Corners {
				side = append(side, on(orb.Point{c[0], c[1]}))
			}
			d.Polygon(side, outline)
		}
	}}
}

// wetSaid tells how much of the squares is wet.
func wetSaid(f siting.StormFrame) string {
	squares, wet, deep := 0, 0, 0
	for _, d := range f.Depth {
		if d == nil {
			continue
		}
		squares++
		if *d >= inked[len(inked)-1].depth {
			wet++
		}
		if *d >= inked[0].depth {
			deep++
		}
	}
	if squares == 0 {
		return "No ground is known there."
	}
	return fmt.Sprintf("Water over 1 mm deep on %.0f %% of the ground, over 30 mm on %.0f %%.", 100*float64(wet)/float64(squares), 100*float64(deep)/float64(squares))
}
