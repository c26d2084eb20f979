package plotfolder

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"crossfall/geodata"

	"github.com/paulmach/orb"
)

// place puts the corners of a shape into the coordinates of a file, each with its
// height where it has one.
func (s *newShape) place(rings [][]orb.Point, toFile func(orb.Point) orb.Point) {
	at := 0
	for _, ring := range rings {
		var corners []corner
		for _, p := range ring {
			k := corner{at: toFile(p), z: math.NaN()}
			if at < len(s.Heights) {
				k.z = s.Heights[at]
			}
			corners = append(corners, k)
			at++
		}
		s.rings = append(s.rings, corners)
	}
	s.Shape, s.Heights = nil, nil
}

// hasHeights tells whether any corner has a height, and whether all have.
func (s *newShape) hasHeights() (any, all bool) {
	all = true
	for _, ring := range s.rings {
		for _, k := range ring {
			any = any || !math.IsNaN(k.z)
			all = all && !math.IsNaN(k.z)
		}
	}
	return any, all
}

// saying is one property of a shape with what it holds.
type saying struct {
	property
	metres float64 // of number
	text   string  // of flag and word
}

// sayings are the properties that a shape of its kind has and that are said.
func (s *newShape) sayings() (out []saying) {
	words := map[string]string{"what": s.What, "carries": string(s.Carries), "located": s.Located}
	for _, p := range properties() {
		if !slices.Contains(p.kinds, s.Kind) {
			continue
		}
		said := saying{property: p}
		switch {
		case p.number != nil:
			said.metres = *p.number(&s.Fixture)
		case p.flag != nil && *p.flag(&s.Fixture):
			said.text = "true"
		case p.word != nil:
			said.text = words[p.key]
		}
		if said.metres != 0 || said.text != "" {
			out = append(out, said)
		}
	}
	return out
}

// tableCorners are the corners of a shape as rows of features.csv: an area is not
// closed, unless it would be taken for a line.
func (s *newShape) tableCorners() []corner {
	ring := s.rings[0]
	if s.form != areaForm {
		return ring
	}
	open := ring[:max(1, len(ring)-1)]
	if f, _ := formOf(s.Kind, s.What, len(open), false); f == areaForm {
		return open
	}
	return ring
}

// degreesText writes degrees to nine decimals, a tenth of a millimetre.
func degreesText(v float64, decimalComma bool) string {
	text := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(v, 'f', 9, 64), "0"), ".")
	if decimalComma {
		text = strings.Replace(text, ".", ",", 1)
	}
	return text
}

// coordinateText writes one coordinate of a file in degrees or metres.
func coordinateText(v float64, lonLat bool, unit geodata.Unit, decimalComma bool) string {
	if lonLat {
		return degreesText(v, decimalComma)
	}
	return lengthText(v, unit, decimalComma)
}
