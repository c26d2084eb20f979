package frame

import "math"

// stressed calls f with every board of the stack, the beam that it is and the
// part of the line load that it carries, over the long side and over the short.
func (t *trial) stressed(lc LoadCase, d demand, thick float64, f func(b Board, beam Beam, w, l float64)) {
	long, cross := t.beams()
	l, short := t.pegGap(), t.wedge.BayWidth()/float64(t.crossSpans())
	below, y := 0.0, -t.sunken
	for _, height := range t.stack {
		y += height
		under := lc.lowerShare(t.wedge.Low(), y, t.wedge.TopAcross)
		part := under - below
		below = under
		b := Board{Height: height, Thickness: thick}
		f(b, long, part*d.long.Force, l)
		f(b, cross, part*d.cross.Force, short)
	}
}

// needed is the thickness at which every board of the stack just carries its
// part of the line loads.
func (t *trial) needed(lc LoadCase, d demand) float64 {
	most, strength := 0.0, t.c.Grade.PermanentBending()
	t.stressed(lc, d, 0, func(b Board, beam Beam, w, l float64) {
		most = math.Max(most, thinnest(b.Height, beam, w, l, strength))
	})
	return most
}

// stress is the greatest stress in new boards in winter, N/mm2.
func (t *trial) stress(thick float64) float64 {
	most := 0.0
	t.stressed(t.c.winter(), t.winter, thick, func(b Board, beam Beam, w, l float64) {
		most = math.Max(most, b.Stress(beam, w, l))
	})
	return most
}

// sag is how far new boards bow between pegs under their drained load, m. That
// is the load which stays; the winter's water comes and goes.
func (t *trial) sag(thick float64) (first, final float64) {
	lc := Drained(t.c.Material)
	t.stressed(lc, t.demand(lc), thick, func(b Board, beam Beam, w, l float64) {
		now, end := b.Deflection(beam, w, l, t.c.Grade)
		first, final = math.Max(first, now), math.Max(final, end)
	})
	return first, final
}

// widest is the spacing of pegs along the long boards at which one of them
// would just bear its winter load, m.
func (t *trial) widest(thick float64) float64 {
	least, strength := math.Inf(1), t.c.Grade.PermanentBending()
	long, _ := t.beams()
	t.stressed(t.c.winter(), t.winter, thick, func(b Board, beam Beam, w, _ float64) {
		if beam == long && w > 0 {
			least = math.Min(least, b.LongestSpan(beam, w, strength))
		}
	})
	return least
}
