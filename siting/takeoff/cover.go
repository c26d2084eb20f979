package takeoff

import "math"

// Woven ground cover over a bed; all common practice, no source.
const (
	turnIn     = 0.3 // m, past the bed on every side, dug or turned in
	pinSpacing = 0.5 // m, along the edges
)

// countCover adds up the cover, layer by layer, and the pins that hold it. The
// pins go through all layers.
func countCover(list *List, said *lines, beds []BedInput) {
	for _, b := range beds {
		if b.Cover <= 0 {
			continue
		}
		w, l := b.Width+2*turnIn, b.Length+2*turnIn
		list.CoverArea += float64(b.Cover) * w * l
		list.CoverPins += 2 * int(math.Ceil(w/pinSpacing-1e-9)+math.Ceil(l/pinSpacing-1e-9))
	}
	if list.CoverArea > 0 {
		said.add("woven cover is counted %.1f m past the bed on every side, each layer by itself and without overlaps, and pins every %.1f m (common practice);"+
			" lay the uphill strip over the lower one by 0.15 m", turnIn, pinSpacing)
	}
}
