package heightgrid

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// The keys that are read (OGC 19-008r4, clause 7).
const (
	keyModelType      = 1024
	keyRasterType     = 1025
	keyGeodeticCRS    = 2048
	keyAngularUnit    = 2054
	keyProjectedCRS   = 3072
	keyLinearUnit     = 3076
	keyLinearUnitSize = 3077
	keyVerticalCRS    = 4096
	keyVerticalUnit   = 4099

	modelProjected  = 1
	modelGeographic = 2
	modelGeocentric = 3
	pointRaster     = 2
	ownDefinition   = 32767
	degreeCode      = 9102
)

// geoKeys are the values of the keys that are read. Numbers only: what is said
// in words is not needed.
type geoKeys struct {
	short map[int]int
	long  map[int]float64
}

// parseGeoKeys reads the directory of keys: after four numbers of which the
// last is their count, each has its number, where its value is, a count and the
// value or its index among the doubles.
func parseGeoKeys(dir []uint64, doubles []float64) geoKeys {
	k := geoKeys{map[int]int{}, map[int]float64{}}
	if len(dir) < 4 {
		return k
	}
	for i := uint64(1); i <= dir[3] && 4*i+3 < uint64(len(dir)); i++ {
		key, where, value := int(dir[4*i]), dir[4*i+1], dir[4*i+3]
		switch {
		case where == 0:
			k.short[key] = int(value)
		case where == tagGeoDoubles && value < uint64(len(doubles)):
			k.long[key] = doubles[value]
		}
	}
	return k
}

// geoKeys reads the keys of a GeoTIFF.
func (t tiffFile) geoKeys(d directory) (geoKeys, error) {
	dir, err := t.numbers(d, tagGeoKeys)
	if err != nil {
		return geoKeys{}, err
	}
	doubles, err := t.floats(d, tagGeoDoubles)
	return parseGeoKeys(dir, doubles), err
}

func (k geoKeys) pixelIsPoint() bool { return k.short[keyRasterType] == pointRaster }

// reference works out units and codes.
func (k geoKeys) reference() (Reference, error) {
	model := k.short[keyModelType]
	if model == modelGeocentric {
		return Reference{}, refuse("grid-unit", "the coordinates are measured from the centre of the earth", "convert the file to the national grid or to a UTM zone")
	}
	projected := coded(k.short[keyProjectedCRS])
	var r Reference
	r.Geographic = model == modelGeographic || model != modelProjected && projected == 0 && coded(k.short[keyGeodeticCRS]) != 0
	r.EPSG = projected
	if r.Geographic {
		r.EPSG = coded(k.short[keyGeodeticCRS])
		if u := k.short[keyAngularUnit]; u != 0 && u != degreeCode {
			return r, refuse("grid-unit", fmt.Sprintf("the coordinates are angles in a unit that is not degrees (code %d)", u), "convert the file to the national grid or to a UTM zone")
		}
	} else if err := k.plan(&r); err != nil {
		return r, err
	}
	if err := k.heights(&r); err != nil {
		return r, err
	}
	return r, r.check()
}

// plan reads the unit of the coordinates. Where none is said the code of the
// system may tell.
func (k geoKeys) plan(r *Reference) error {
	code, said := k.short[keyLinearUnit]
	size := k.long[keyLinearUnitSize]
	switch u, known := unitCoded(code); {
	case said && known:
		r.Unit = u
	case size > 0 && !math.IsInf(size, 0):
		r.Unit = geodata.Unit(size)
	case said && code != 0:
		return refuse("grid-unit", fmt.Sprintf("the coordinates are in a unit that is not known (code %d)", code), "convert the file to metres")
	case metreGrid(r.EPSG):
		r.Unit = geodata.Metre
	}
	return nil
}

// heights reads the system and unit of the heights.
func (k geoKeys) heights(r *Reference) error {
	r.VerticalEPSG = coded(k.short[keyVerticalCRS])
	code, said := k.short[keyVerticalUnit]
	switch u, known := unitCoded(code); {
	case said && known:
		r.HeightUnit = u
	case said && code != 0 && code != ownDefinition:
		return refuse("grid-unit", fmt.Sprintf("the heights are in a unit that is not known (code %d)", code), "convert the heights to metres")
	default:
		r.HeightUnit, _ = heightUnitOf(r.VerticalEPSG)
		// Some programs write the unit's code where the system's belongs.
		if u, known := unitCoded(r.VerticalEPSG); known && r.HeightUnit == 0 && r.VerticalEPSG >= 9001 && r.VerticalEPSG <= 9003 {
			r.HeightUnit, r.VerticalEPSG = u, 0
		}
	}
	return nil
}

// coded is a code of the EPSG register, 0 for one of the file's own.
func coded(code int) int {
	if code >= ownDefinition || code < 0 {
		return 0
	}
	return code
}
