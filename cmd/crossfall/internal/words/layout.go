package words

import (
	"fmt"
	"math"
	"strings"

	"crossfall/siting"
)

// hindrancesTold is how many things in the way are named.
const hindrancesTold = 4

// LayoutSaid says how good the arrangement of the beds is, and what stands in the
// way of more; nil where nothing was arranged or compared.
func (w Words) LayoutSaid(a *siting.Assessment) []Item {
	l := a.Layout
	if l == nil {
		return nil
	}
	var out []Item
	var said []string
	for _, t := range l.Said {
		said = append(said, sentence(w.Prose(t)))
	}
	if len(said) > 0 {
		out = append(out, Item{"Layout", strings.Join(said, " ")})
	}
	if l.Placed > 0 {
		out = append(out, Item{"Score", fmt.Sprintf("%.1f marks, of at most %.1f", l.Score, math.Ceil(l.Bound*10-1e-6)/10)})
	}
	if l.RowBearing != nil {
		out = append(out, Item{"Rows lie", fmt.Sprintf("%.0f° (long sides)", *l.RowBearing)})
	}
	var marks []string
	for _, b := range a.Beds {
		if b.Marks != nil {
			marks = append(marks, fmt.Sprintf("%s %.0f", b.Name, *b.Marks))
		}
	}
	if len(marks) > 0 {
		out = append(out, Item{"Marks of 100", strings.Join(marks, ", ")})
	}
	var stops []string
	for _, h := range l.InTheWay[:min(len(l.InTheWay), hindrancesTold)] {
		stops = append(stops, fmt.Sprintf("%s, %s of the places looked at", w.Prose(h.Why), percentOf(h.Share)))
	}
	if len(stops) > 0 {
		out = append(out, Item{"In the way", sentence(strings.Join(stops, "; "))})
	}
	return out
}

// percentOf is a share in whole percents.
func percentOf(share float64) string {
	if share < 0.01 {
		return "under 1 %"
	}
	return fmt.Sprintf("%.0f %%", 100*share)
}
