package dxf

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/internal/textfile"
)

// layer is what was drawn on one layer.
type layer struct {
	name         string
	spots, zeros int
	line         int // of its first place at 0
}

// layers counts places by layer, in reading order of their first.
func (r *reader) layers() []layer {
	var out []layer
	at := map[string]int{}
	for _, s := range r.drawn {
		i, known := at[s.layer]
		if !known {
			i = len(out)
			at[s.layer] = i
			out = append(out, layer{name: s.layer})
		}
		out[i].spots++
		if s.z == 0 {
			if out[i].zeros++; out[i].zeros == 1 {
				out[i].line = s.line
			}
		}
	}
	return out
}

// flatLayers are the layers all of whose heights are 0.
func (r *reader) flatLayers() (names []string) {
	for _, l := range r.layers() {
		if l.zeros == l.spots {
			names = append(names, l.name)
		}
	}
	return names
}

// judgeLayers refuses a flat drawing, and tells of layers that are flat or
// partly so.
func (r *reader) judgeLayers() {
	all := r.layers()
	flat := r.flatLayers()
	if len(all) == 0 {
		return
	}
	if len(flat) == len(all) {
		r.fs.Problem(geodata.Pos{File: r.file}, "dxf-flat", "", "every height in the drawing is 0: it is a flat drawing, not level ground",
			"is there a drawing with heights? if the heights are written as text, give them as heights.csv")
		return
	}
	const most = 30
	var told []string
	for _, l := range all {
		told = append(told, fmt.Sprintf("%q (%d)", textfile.Short(l.name), l.spots))
		switch {
		case l.zeros == l.spots:
			r.fs.Warn(r.at(l.line), "dxf-layer-flat", l.name, "every height on this layer is 0: its places were taken without heights", "")
		case l.zeros > 0:
			r.fs.Warn(r.at(l.line), "dxf-zero-among-heights", l.name, textfile.Count(l.zeros, "place")+" of this layer at the height 0 among others that are not: taken as heights", "if 0 means that no height was given, leave these places out")
		}
	}
	if len(told) > most {
		told = append(told[:most], "...")
	}
	r.fs.Note(geodata.Pos{File: r.file}, "dxf-layers", "places by layer: "+strings.Join(told, ", "))
}

// asked tells whether a layer is to be taken; layer names know no case.
func (r *reader) asked(name string) bool {
	return slices.ContainsFunc(r.opt.Layers, func(l string) bool { return strings.EqualFold(l, name) })
}

// tell adds what was counted.
func (r *reader) tell() {
	file := geodata.Pos{File: r.file}
	if r.inserts > 0 {
		r.fs.Warn(file, "dxf-blocks", "", textfile.Count(r.inserts, "insertion")+" of blocks: what they hold is not read", "explode the blocks before export if spots are among them")
	}
	if r.turned > 0 {
		r.fs.Warn(file, "dxf-turned", "", textfile.Count(r.turned, "polyline")+" drawn in a plane that is not level: not taken", "")
	}
	if r.again > 0 {
		r.fs.Note(file, "dxf-places-again", textfile.Count(r.again, "place")+" drawn again at the same height: taken once")
	}
	if r.otherLayer > 0 {
		r.fs.Note(file, "dxf-other-layers", fmt.Sprintf("entities on layers that were not asked for: %d, not taken", r.otherLayer))
	}
	if len(r.notRead) > 0 {
		r.fs.Note(file, "dxf-entities-not-read", "entities that are not read: "+strings.Join(sortedCounts(r.notRead), ", "))
	}
}

// sortedCounts lists names with their counts, in order of the names.
func sortedCounts(counts map[string]int) (out []string) {
	names := make([]string, 0, len(counts))
	for name := range counts {
		names = append(names, name)
	}
	slices.SortFunc(names, func(a, b string) int { return cmp.Compare(a, b) })
	const most = 20
	for _, name := range names[:min(most, len(names))] {
		out = append(out, fmt.Sprintf("%s (%d)", textfile.Short(name), counts[name]))
	}
	return out
}
