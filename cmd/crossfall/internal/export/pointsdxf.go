package export

import (
	"io"

	"github.com/paulmach/orb"
)

// dxfUnits says on and in every drawing what its numbers are.
const dxfUnits = "metres on the ground, x east and y north in the plot's frame; heights above the survey's own datum"

// Letters on a drawing, metres on the ground: at 1 to 50 they are 3 mm high.
const letterHeight = 0.15

// PointsDXF draws points with their names as an ASCII DXF of Release 12, in metres
// on the ground, a layer for each kind. Points of unknown height are drawn at
// height 0.
func PointsDXF(w io.Writer, points []Point) error {
	d := &dxfDrawing{}
	for _, p := range points {
		layer := d.layerOf(p.Kind)
		d.point(layer, p.At, p.Height)
		d.text(layer, beside(p.At), letterHeight, 0, p.Name)
	}
	return d.write(w, dxfUnits)
}

// beside is where the name of a point begins.
func beside(p orb.Point) orb.Point { return orb.Point{p[0] + letterHeight, p[1] + letterHeight/2} }

// layerOf is the layer of a kind of point, made when it is met first.
func (d *dxfDrawing) layerOf(kind string) string {
	name := layerName(kind)
	for _, l := range d.layers {
		if l.name == name {
			return name
		}
	}
	d.layers = append(d.layers, dxfLayer{name: name, color: 7})
	return name
}

// layerName is a kind as Release 12 allows it for a layer: capitals, figures and
// dashes, 31 at most.
func layerName(kind string) string {
	name := []byte{}
	for _, r := range kind {
		switch {
		case r >= 'a' && r <= 'z':
			name = append(name, byte(r-'a'+'A'))
		case r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_':
			name = append(name, byte(r))
		default:
			name = append(name, '-')
		}
	}
	if len(name) == 0 {
		return "POINTS"
	}
	return string(name[:min(len(name), 31)])
}
