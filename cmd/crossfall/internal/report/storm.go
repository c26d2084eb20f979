package report

import (
	"fmt"
	"math"
	"strings"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"

	"github.com/paulmach/orb"
)

// stormPart is one storm played over the plot.
type stormPart struct {
	Items  []words.Item
	Boards grid
	Key    string // how to read the plans
	Frames []stormFrame
}

// stormFrame is a small plan of the depths at one time, in squares of its grid
// with north at the top.
type stormFrame struct {
	Caption, Box string
	Marks        []stormMark
	Lines        []string // boundary and beds, as points of a polygon
}

// stormMark is a square of ink, the larger the deeper the water.
type stormMark struct{ X, Y, Side string }

// inked are the least depths, mm, and the share of a square's side that is inked.
var inked = []struct{ depth, side float64 }{{30, 1}, {10, 0.75}, {3, 0.5}, {1, 0.25}}

// mostPlans is about how many small plans tell a storm on paper.
const mostPlans = 6

func stormsOf(w words.Words, a *siting.Assessment) (parts []stormPart, claims []words.Item) {
	if a.Water.Played == nil {
		return nil, nil
	}
	key := w.Prose("Depth on the mean over each square: a dot over 1 mm, half a square over 3 mm, three quarters over 10 mm, a full square over 30 mm.")
	for _, s := range a.Water.Played.Storms {
		part := stormPart{Items: w.StormItems(s), Boards: grid{w.StormBoardHeads(), w.StormBoardRows(s)}, Key: key}
		for i, f := range s.Frames {
			if i%2 == 0 && len(s.Frames) > mostPlans {
				continue // every second one, the last among them
			}
			part.Frames = append(part.Frames, frameOf(f, a))
		}
		parts = append(parts, part)
	}
	return parts, w.StormClaims(a.Water.Played)
}

func frameOf(f siting.StormFrame, a *siting.Assessment) stormFrame {
	out := stormFrame{Caption: fmt.Sprintf("After %.0f minutes", f.Minutes), Box: fmt.Sprintf("0 0 %d %d", f.Cols, f.Rows)}
	for i, d := range f.Depth {
		if d == nil {
			continue
		}
		for _, ink := range inked {
			if *d >= ink.depth {
				x, y := float64(i%f.Cols), float64(f.Rows-1-i/f.Cols)
				gap := (1 - ink.side) / 2
				out.Marks = append(out.Marks, stormMark{short(x + gap), short(y + gap), short(ink.side)})
				break
			}
		}
	}
	on := func(p orb.Point) string {
		return short((p[0]-f.Origin[0])/f.Square) + "," + short(float64(f.Rows)-(p[1]-f.Origin[1])/f.Square)
	}
	var rim []string
	for _, p := range a.Frame.Boundary {
		rim = append(rim, on(p))
	}
	out.Lines = append(out.Lines, strings.Join(rim, " "))
	for _, b := range a.Beds {
		if b.Build == nil {
			continue
		}
		var side []string
		for _, c := range b.Corners {
			side = append(side, on(orb.Point{c[0], c[1]}))
		}
		out.Lines = append(out.Lines, strings.Join(side, " "))
	}
	return out
}

// short writes a coordinate to two decimals.
func short(v float64) string { return fmt.Sprintf("%g", math.Round(v*100)/100) }
