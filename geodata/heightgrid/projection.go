package heightgrid

import (
	"math"
	"strconv"
	"strings"

	"crossfall/geodata"
)

// ReadProjection takes over what a .prj file beside a text grid says: a
// coordinate system as well-known text, old (OGC 01-009) or new (ISO 19162). It
// settles only what the file of heights does not say itself. Call it before
// reading windows. Faults: projection-not-read, grid-web-mercator, grid-unit.
func (s *Source) ReadProjection(text string) error {
	r, err := parseProjection(text)
	if err != nil {
		return faultsOf(s.name, err)
	}
	if s.ref.Guessed || !s.ref.Geographic && s.ref.Unit == 0 && s.ref.EPSG == 0 {
		s.ref.EPSG, s.ref.Geographic, s.ref.Guessed, s.ref.Unit = r.EPSG, r.Geographic, false, r.Unit
	}
	if s.ref.HeightUnit == 0 && s.ref.VerticalEPSG == 0 {
		s.ref.HeightUnit, s.ref.VerticalEPSG = r.HeightUnit, r.VerticalEPSG
	}
	return nil
}

// parseProjection reads units and codes of a coordinate system.
func parseProjection(text string) (Reference, error) {
	var r Reference
	roots, ok := parseWKT(text)
	if !ok {
		return r, refuse("projection-not-read", "the description of the coordinate system cannot be read", "export the file again with its coordinate system")
	}
	found := false
	for _, root := range roots {
		if err := r.take(root, &found); err != nil {
			return r, err
		}
	}
	if !found {
		return r, refuse("projection-not-read", "the description of the coordinate system names none that is known", "export the file again with its coordinate system")
	}
	return r, r.check()
}

// take reads one system, or those that a compound one is made of.
func (r *Reference) take(n wktNode, found *bool) error {
	switch n.name {
	case "COMPD_CS", "COMPOUNDCRS", "BOUNDCRS", "SOURCECRS":
		for _, kid := range n.kids {
			if err := r.take(kid, found); err != nil {
				return err
			}
		}
	case "PROJCS", "PROJCRS", "PROJECTEDCRS", "LOCAL_CS", "ENGCRS":
		*found = true
		r.EPSG, r.Unit = n.epsg(), n.unit()
		if r.Unit == 0 && metreGrid(r.EPSG) {
			r.Unit = geodata.Metre
		}
		if n.isWebMercator() {
			r.EPSG = 3857
		}
	case "GEOGCS", "GEOGCRS", "GEODCRS", "GEODETICCRS", "GEOGRAPHICCRS":
		*found = true
		r.EPSG, r.Geographic = n.epsg(), true
	case "VERT_CS", "VERTCS", "VERTCRS", "VERTICALCRS":
		r.VerticalEPSG, r.HeightUnit = n.epsg(), n.unit()
	case "GEOCCS":
		return refuse("grid-unit", "the coordinates are measured from the centre of the earth", "convert the file to the national grid or to a UTM zone")
	}
	return nil
}

// isWebMercator knows the web maps' projection by the names that programs give
// it.
func (n wktNode) isWebMercator() bool {
	if len(n.words) > 0 {
		name := strings.ToLower(n.words[0])
		if strings.Contains(name, "web_mercator") || strings.Contains(name, "pseudo-mercator") {
			return true
		}
	}
	for _, k := range n.kids {
		if k.name == "PROJECTION" && len(k.words) > 0 && strings.EqualFold(k.words[0], "Mercator_Auxiliary_Sphere") {
			return true
		}
	}
	return false
}

// epsg is the code of a system itself, not of its parts.
func (n wktNode) epsg() int {
	for _, k := range n.kids {
		if (k.name == "AUTHORITY" || k.name == "ID") && len(k.words) >= 2 && strings.EqualFold(k.words[0], "EPSG") {
			if code, err := strconv.Atoi(k.words[1]); err == nil {
				return max(code, 0)
			}
		}
	}
	return 0
}

// unit is the unit of length of a system: its own or, in the new text, that of
// its first axis.
func (n wktNode) unit() geodata.Unit {
	for _, k := range n.kids {
		if (k.name == "UNIT" || k.name == "LENGTHUNIT") && len(k.words) >= 2 {
			if v, err := strconv.ParseFloat(k.words[1], 64); err == nil && v > 0 && !math.IsInf(v, 0) {
				return exactUnit(v)
			}
		}
	}
	for _, k := range n.kids {
		if k.name == "AXIS" || k.name == "CS" {
			if u := k.unit(); u != 0 {
				return u
			}
		}
	}
	return 0
}

// exactUnit gives the unit that a rounded factor means.
func exactUnit(v float64) geodata.Unit {
	for _, u := range []geodata.Unit{geodata.Metre, geodata.Foot, geodata.SurveyFoot} {
		if math.Abs(v/float64(u)-1) < 1e-8 {
			return u
		}
	}
	return geodata.Unit(v)
}
