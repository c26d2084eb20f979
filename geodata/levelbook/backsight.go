package levelbook

import (
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/geodata/mapgrid"
)

// backSights warns of lines whose bearings read from both ends are not opposite:
// iron near the compass turns it (common practice: beyond 2 degrees).
func (s *solver) backSights() {
	type line struct{ from, to string }
	read := map[line]int{}
	for i, r := range s.ties.Rows {
		bearing, ok := r.bearing()
		if !ok {
			continue
		}
		here := line{nameKey(r.From), nameKey(r.Point)}
		there, found := read[line{here.to, here.from}]
		if _, twice := read[here]; !twice {
			read[here] = i
		}
		if !found {
			continue
		}
		forward, _ := s.ties.Rows[there].bearing()
		if off := mapgrid.BackSightOff(forward, bearing); math.Abs(off) > mapgrid.MostBackSightOff+1e-9 {
			s.faults.Add(s.fault(i, geodata.Warning, "back-bearing",
				fmt.Sprintf("this bearing and the one from %s back to it (line %d) miss being opposite by %.1f degrees", r.Point, s.ties.Rows[there].Line, math.Abs(degrees(off))),
				"keep iron fences, sheds, knives and telephones away from the compass, and read both again"))
		}
	}
}
