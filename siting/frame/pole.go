package frame

import (
	"math"

	"crossfall/siting/soil"
)

// The pole formula of the building code, for a post whose hold starts at
// nothing at the surface. It was made for sign and fence poles and asks two to
// four times the depth that a garden peg needs; it is here as an upper bound
// for whoever must show a code figure, and decides nothing.

// CodeBearing is the lateral bearing of one class of ground in kPa per metre
// of depth: International Building Code 2012, Table 1806.2.
type CodeBearing struct {
	Ground  string
	Lateral float64
}

// CodeBearings lists Table 1806.2. The code gives no value for organic or
// unprepared ground, which topsoil is.
func CodeBearings() []CodeBearing {
	return []CodeBearing{
		{"crystalline bedrock", 188},
		{"sedimentary rock", 62.8},
		{"sandy gravel or gravel", 31.4},
		{"sand, silty sand, clayey sand, silty gravel, clayey gravel", 23.6},
		{"clay, sandy clay, silty clay, clayey silt, silt", 15.7},
	}
}

// PoleDepth is the embedment, m, of a post free at the ground under a load
// (kN) h metres above it; b is its diameter, or the diagonal of a square post,
// m, and bearing the lateral bearing, kPa per metre. International Building
// Code 1807.3.2.1, Equation 18-1, solved for the depth on which its own bearing
// stress depends: d^3 - k d - 1.09 k h = 0. Valid to 3.66 m (12 ft).
func PoleDepth(load, h, b, bearing float64) float64 {
	return pairedCubic(7.02*load/(bearing*b), 1.09*h)
}

// codeDepth is what that formula asks of a square peg under a load h metres
// above the ground. Topsoil is given the bearing of clay and silt, the least of
// the table, though the code itself gives it none.
func codeDepth(g soil.Ground, load, h, size float64) float64 {
	table := CodeBearings()
	bearing := table[len(table)-1].Lateral
	if !g.Clay {
		bearing = table[len(table)-2].Lateral
	}
	return PoleDepth(load, h, size*math.Sqrt2, bearing)
}
