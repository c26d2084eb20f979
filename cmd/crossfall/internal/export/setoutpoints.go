package export

import (
	"fmt"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/setout"
)

// Points are the marks, the ends of the rows, and the corners and pegs of the
// beds that may be built, with the datum peg: what is looked up on a phone or
// staked out with an instrument. Notes are in the units given.
func Points(a *siting.Assessment, units geodata.Units) []Point {
	s := a.SettingOut
	var out []Point
	for _, m := range s.Marks {
		p := Point{Name: m.Name, Kind: "mark", At: m.At, Height: m.Height}
		if m.Proposed {
			p.Kind, p.Note = "mark to be set", m.Where
		}
		out = append(out, p)
	}
	add := func(kind, of string, points []setout.Corner) {
		for _, c := range points {
			out = append(out, Point{Name: of + " " + c.Name, Kind: kind, Note: tapesSaid(c, inUnits(units)), At: c.At, Height: c.Height})
		}
	}
	for _, r := range s.Rows {
		add("row end", r.Name, r.Ends[:])
	}
	for _, b := range s.Beds {
		add("bed corner", b.Name, b.Corners)
		add("peg", b.Name, b.Pegs)
	}
	if d := s.Datum; d != nil {
		out = append(out, Point{Name: "datum peg", Kind: "datum peg", Note: "at the uphill left corner of " + d.Bed, At: d.At, Height: d.Ground})
	}
	return out
}

// tapesSaid are the two tapes to a point, held level.
func tapesSaid(c setout.Corner, u inUnits) string {
	if len(c.Ties) < 2 {
		return ""
	}
	a, b := c.Ties[0], c.Ties[1]
	return fmt.Sprintf("%s from %s and %s from %s, tapes level; %s of the line from the first to the second",
		u.tapeSaid(a.Distance), a.Mark, u.tapeSaid(b.Distance), b.Mark, c.Side)
}
