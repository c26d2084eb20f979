package report

import (
	"fmt"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
	"crossfall/siting/plan"
)

// mostPlans is about how many small plans tell a storm on paper.
const mostPlans = 6

// stormBlocks are the storms played over the plot, each as small plans of the
// depth of water.
func stormBlocks(w words.Words, a *siting.Assessment) []block {
	if a.Water.Played == nil {
		return nil
	}
	key := w.Prose("Depth on the mean over each square: a dot over 1 mm, half a square over 3 mm, three quarters over 10 mm, a full square over 30 mm.")
	var out []block
	for n, s := range a.Water.Played.Storms {
		var small []figure
		for i, f := range s.Frames {
			if i%2 == 0 && len(s.Frames) > mostPlans {
				continue // every second one, the last among them
			}
			small = append(small, figure{Figure: plan.StormFigure(f, a), Name: fmt.Sprintf("storm-%d-%d", n+1, i+1), Caption: fmt.Sprintf("After %.0f minutes", f.Minutes)})
		}
		out = append(out, titled("The storm over the plot", block{Items: w.StormItems(s)},
			grid("Water at the boards", w.StormBoardHeads(), w.StormBoardRows(s)), block{Text: key}, block{Row: small})...)
	}
	return append(out, titled("What the storm says and does not", block{Items: w.StormClaims(a.Water.Played)})...)
}
