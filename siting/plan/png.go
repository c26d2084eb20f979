package plan

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"math"

	"github.com/paulmach/orb"
	"golang.org/x/image/vector"
)

// Resolutions of pictures, dots an inch.
const (
	usualDPI = 150 // reads on a screen and prints passably; a default of ours
	leastDPI = 30
	mostDPI  = 600
)

// PNG writes the figure as a picture at a resolution of 30 to 600 dots an inch;
// 0 is 150.
func (f Figure) PNG(w io.Writer, dpi float64) error {
	if dpi == 0 {
		dpi = usualDPI
	}
	if !(dpi >= leastDPI && dpi <= mostDPI) {
		return fmt.Errorf("plan: a picture has %d to %d dots an inch, not %g", leastDPI, mostDPI, dpi)
	}
	face, err := newTypeface()
	if err != nil {
		return err
	}
	p := &pngDrawing{scale: dpi / 25.4, face: face}
	p.picture = image.NewRGBA(image.Rect(0, 0, int(math.Ceil(f.Width*p.scale)), int(math.Ceil(f.Height*p.scale))))
	draw.Draw(p.picture, p.picture.Bounds(), image.White, image.Point{}, draw.Src)
	f.draw(p)
	f.foot(p, &p.texts)
	coder := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := coder.Encode(w, p.picture); err != nil {
		return fmt.Errorf("write the picture: %w", err)
	}
	return nil
}

// pngDrawing is a Drawing on a picture.
type pngDrawing struct {
	picture *image.RGBA
	scale   float64 // dots in a millimetre
	face    *typeface
	texts   Letters
	raster  vector.Rasterizer
}

// Polygon draws a closed ring.
func (p *pngDrawing) Polygon(ring []orb.Point, s Style) {
	if len(ring) < 2 {
		return
	}
	dots := p.dots(ring)
	if s.Fill != "" {
		p.fill([][]orb.Point{dots}, s.Fill)
	}
	p.stroke(append(dots[:len(dots):len(dots)], dots[0]), s)
}

// Line draws an open line.
func (p *pngDrawing) Line(pts []orb.Point, s Style) { p.stroke(p.dots(pts), s) }

// Text draws one line of text, with its halo first.
func (p *pngDrawing) Text(at orb.Point, t string, s TextStyle) {
	rings := p.face.outline(p.texts.Text(t), s)
	for i, r := range rings {
		for j, q := range r {
			rings[i][j] = orb.Point{(q[0] + at[0]) * p.scale, (q[1] + at[1]) * p.scale}
		}
	}
	if s.Halo {
		var rim [][]orb.Point
		for _, r := range rings {
			rim = append(rim, outlined(r, s.Size*haloWidth*p.scale)...)
		}
		p.fill(rim, Paper)
	}
	p.fill(rings, s.Ink)
}

func (p *pngDrawing) dots(pts []orb.Point) []orb.Point {
	out := make([]orb.Point, len(pts))
	for i, q := range pts {
		out[i] = orb.Point{q[0] * p.scale, q[1] * p.scale}
	}
	return out
}

// thinnest is the least width of a line, dots: thinner ones would fade away.
const thinnest = .7

func (p *pngDrawing) stroke(dots []orb.Point, s Style) {
	if s.Stroke == "" || s.Width <= 0 {
		return
	}
	width := math.Max(thinnest, s.Width*p.scale)
	var all [][]orb.Point
	for _, part := range dashed(dots, p.dashes(s.Dash)) {
		all = append(all, outlined(part, width)...)
	}
	p.fill(all, s.Stroke)
}

func (p *pngDrawing) dashes(mm []float64) []float64 {
	out := make([]float64, len(mm))
	for i, d := range mm {
		out[i] = d * p.scale
	}
	return out
}

// fill covers rings with ink; where several of one sense lie on one another they
// count once.
func (p *pngDrawing) fill(rings [][]orb.Point, ink Ink) {
	var all orb.MultiPoint
	for _, r := range rings {
		all = append(all, r...)
	}
	if len(all) == 0 {
		return
	}
	b := all.Bound()
	area := image.Rect(int(math.Floor(b.Left()))-1, int(math.Floor(b.Bottom()))-1, int(math.Ceil(b.Right()))+1, int(math.Ceil(b.Top()))+1).
		Intersect(p.picture.Bounds())
	if area.Empty() {
		return
	}
	p.raster.Reset(area.Dx(), area.Dy())
	at := func(q orb.Point) (x, y float32) {
		return float32(q[0] - float64(area.Min.X)), float32(q[1] - float64(area.Min.Y))
	}
	for _, r := range rings {
		if len(r) < 3 {
			continue
		}
		p.raster.MoveTo(at(r[0]))
		for _, q := range r[1:] {
			p.raster.LineTo(at(q))
		}
		p.raster.ClosePath()
	}
	red, green, blue := ink.RGB()
	p.raster.Draw(p.picture, area, image.NewUniform(color.RGBA{uint8(red), uint8(green), uint8(blue), 255}), image.Point{})
}
