package words

import (
	"fmt"
	"slices"

	"crossfall/siting"
)

// WaterShort is what winter rain does, in a few sentences.
func (w Words) WaterShort(a *siting.Assessment) []string {
	var out []string
	out = append(out, w.runoffSaid(a))
	out = append(out, crossedSaid(a)...)
	if n := len(a.Ground.Hollows); n > 0 {
		out = append(out, sentence("water stands in "+count(n, "hollow")))
	}
	out = append(out, movesSaid(a)...)
	if n := len(a.Water.Advice); n > 0 {
		first := a.Water.Advice[0]
		name := "the plot"
		if first.Bed != "" {
			name = first.Bed
		}
		out = append(out, sentence("to do first, "+name+": "+w.Prose(first.What)))
	}
	if t := stormSaid(a.Water.Storm); t != "" {
		out = append(out, sentence("storm played over the plot: "+t))
	}
	return out
}

// crossedSaid names the beds that lie in the way of water, and those that turn
// it.
func crossedSaid(a *siting.Assessment) []string {
	if len(a.Water.Paths) == 0 {
		return []string{"No path of water can be told from these heights."}
	}
	crossed, turned := bedsOf(a.Water.Paths, siting.Path.Meets), bedsOf(a.Water.PathsWithBeds, siting.Path.Turns)
	var out []string
	if len(crossed) == 0 {
		out = append(out, "None of the "+count(len(a.Water.Paths), "path")+" followed crosses a bed.")
	} else {
		out = append(out, sentence("in the way of water: "+list(crossed)))
	}
	if len(turned) > 0 {
		out = append(out, sentence("with the beds built, the boards of "+list(turned)+" turn it to the low end of the side it meets"))
	}
	return out
}

// bedsOf gathers the names that paths give, each once, in order.
func bedsOf(paths []siting.Path, names func(siting.Path) []string) []string {
	var out []string
	for _, p := range paths {
		for _, n := range names(p) {
			if !slices.Contains(out, n) {
				out = append(out, n)
			}
		}
	}
	return out
}

// movesSaid names the beds at whose upper edge loose compost would move in the
// storm met once in ten years.
func movesSaid(a *siting.Assessment) []string {
	var moves, may []string
	for _, b := range a.Beds {
		if b.Water == nil {
			continue
		}
		for _, e := range b.Water.Edge {
			switch {
			case e.ReturnYears != 10:
			case e.Moves == siting.Moves || e.Moves == siting.LikelyMoves:
				moves = append(moves, b.Name)
			case e.Moves == siting.MayMove:
				may = append(may, b.Name)
			}
		}
	}
	var out []string
	for _, m := range []struct {
		verb  string
		names []string
	}{{"likely moves", moves}, {"may move", may}} {
		if len(m.names) > 0 {
			out = append(out, fmt.Sprintf("In the storm met once in 10 years, loose compost %s at the upper edge of %s.", m.verb, list(m.names)))
		}
	}
	return out
}
