package export

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/paulmach/orb"
	"golang.org/x/text/encoding/charmap"
)

// dxfLayer is a layer of a drawing. Kinds of thing are told apart by layer and line
// type; the colour, of the palette every reader of DXF has, only helps the eye.
type dxfLayer struct {
	name   string // capitals, figures and dashes, 31 at most: the rule of Release 12
	color  int
	dashed bool
}

// dxfDrawing gathers the entities of a drawing in ASCII DXF of Release 12, the
// oldest form still read everywhere. Its unit is the metre, of the ground and not of
// paper: the form has no place to say so, so a comment and a line of text do.
// Group codes are those of the DXF reference of Release 12 (1992, from memory).
type dxfDrawing struct {
	layers   []dxfLayer
	entities strings.Builder
	box      orb.Bound
	any      bool
}

// pair writes a group code and its value.
func pair(b *strings.Builder, code int, value string) {
	fmt.Fprintf(b, "%3d\n%s\n", code, value)
}

// dxfNumber prints a coordinate to a tenth of a millimetre.
func dxfNumber(v float64) string {
	return strconv.FormatFloat(rounded(v, metreDecimals), 'f', metreDecimals, 64)
}

// place writes x, y and z under codes 10, 20 and 30.
func place(b *strings.Builder, p orb.Point, z float64) {
	if math.IsNaN(z) || math.IsInf(z, 0) {
		z = 0
	}
	pair(b, 10, dxfNumber(p[0]))
	pair(b, 20, dxfNumber(p[1]))
	pair(b, 30, dxfNumber(z))
}

// begin begins an entity on a layer.
func (d *dxfDrawing) begin(entity, layer string, at ...orb.Point) {
	pair(&d.entities, 0, entity)
	pair(&d.entities, 8, layer)
	for _, p := range at {
		if !d.any {
			d.box, d.any = p.Bound(), true
		}
		d.box = d.box.Extend(p)
	}
}

// point draws a point at a height; one that is not known is drawn at 0.
func (d *dxfDrawing) point(layer string, at orb.Point, z float64) {
	d.begin("POINT", layer, at)
	place(&d.entities, at, z)
}

// line draws a level polyline at a height, closed or open. A ring need not repeat
// its first corner.
func (d *dxfDrawing) line(layer string, points []orb.Point, z float64, closed bool) {
	if n := len(points); closed && n > 1 && points[0] == points[n-1] {
		points = points[:n-1]
	}
	if len(points) < 2 {
		return
	}
	d.begin("POLYLINE", layer, points...)
	pair(&d.entities, 66, "1") // corners follow
	place(&d.entities, orb.Point{}, z)
	flags := "0"
	if closed {
		flags = "1"
	}
	pair(&d.entities, 70, flags)
	for _, p := range points {
		d.begin("VERTEX", layer)
		place(&d.entities, p, z)
	}
	d.begin("SEQEND", layer)
}

// circle draws a circle on the ground.
func (d *dxfDrawing) circle(layer string, centre orb.Point, radius float64) {
	d.begin("CIRCLE", layer, orb.Point{centre[0] - radius, centre[1] - radius}, orb.Point{centre[0] + radius, centre[1] + radius})
	place(&d.entities, centre, 0)
	pair(&d.entities, 40, dxfNumber(radius))
}

// text writes a line of text that begins at a place, its letters so many metres
// high, turned counterclockwise by degrees.
func (d *dxfDrawing) text(layer string, at orb.Point, height, turn float64, t string) {
	if t == "" {
		return
	}
	d.begin("TEXT", layer, at)
	place(&d.entities, at, 0)
	pair(&d.entities, 40, dxfNumber(height))
	pair(&d.entities, 1, dxfText(t))
	if turn != 0 {
		pair(&d.entities, 50, fixed(turn, 3))
	}
}

// dxfText is text in Windows-1252, the code page that the drawing names; letters
// beyond it are \U+ and four hexadecimal figures, which most readers of DXF turn
// back. A caret and a percent sign would begin codes of their own.
func dxfText(t string) string {
	var b strings.Builder
	for _, r := range t {
		c, known := charmap.Windows1252.EncodeRune(r)
		switch {
		case r == '^':
			b.WriteString("^ ")
		case r == '%':
			b.WriteString("%%37")
		case r < ' ' || r == 0x7f:
			b.WriteByte(' ')
		case known:
			b.WriteByte(c)
		case r <= 0xffff:
			fmt.Fprintf(&b, `\U+%04X`, r)
		default:
			b.WriteByte('?')
		}
	}
	return b.String()
}

// write ends the drawing.
func (d *dxfDrawing) write(w io.Writer, comment string) error {
	var b strings.Builder
	pair(&b, 999, dxfText(comment))
	d.header(&b)
	d.tables(&b)
	section(&b, "ENTITIES", d.entities.String())
	pair(&b, 0, "EOF")
	_, err := io.WriteString(w, b.String())
	return err
}

func section(b *strings.Builder, name, body string) {
	pair(b, 0, "SECTION")
	pair(b, 2, name)
	b.WriteString(body)
	pair(b, 0, "ENDSEC")
}

// header says the release and how far the drawing reaches.
func (d *dxfDrawing) header(b *strings.Builder) {
	var h strings.Builder
	pair(&h, 9, "$ACADVER")
	pair(&h, 1, "AC1009")
	pair(&h, 9, "$DWGCODEPAGE")
	pair(&h, 3, "ANSI_1252")
	pair(&h, 9, "$EXTMIN")
	place(&h, d.box.Min, 0)
	pair(&h, 9, "$EXTMAX")
	place(&h, d.box.Max, 0)
	pair(&h, 9, "$PDMODE") // points as crosses
	pair(&h, 70, "3")
	pair(&h, 9, "$PDSIZE")
	pair(&h, 40, "0.1")
	section(b, "HEADER", h.String())
}

// tables holds the line types and the layers.
func (d *dxfDrawing) tables(b *strings.Builder) {
	var t strings.Builder
	pair(&t, 0, "TABLE")
	pair(&t, 2, "LTYPE")
	pair(&t, 70, "2")
	lineType(&t, "CONTINUOUS", "Solid line", "0.0")
	lineType(&t, "DASHED", "Dashed line", "0.45", "0.3", "-0.15")
	pair(&t, 0, "ENDTAB")
	pair(&t, 0, "TABLE")
	pair(&t, 2, "LAYER")
	pair(&t, 70, strconv.Itoa(len(d.layers)))
	for _, l := range d.layers {
		pair(&t, 0, "LAYER")
		pair(&t, 2, l.name)
		pair(&t, 70, "0")
		pair(&t, 62, strconv.Itoa(l.color))
		pair(&t, 6, map[bool]string{false: "CONTINUOUS", true: "DASHED"}[l.dashed])
	}
	pair(&t, 0, "ENDTAB")
	section(b, "TABLES", t.String())
}

// lineType writes a line type of a length in metres and its dashes and gaps.
func lineType(b *strings.Builder, name, said, length string, parts ...string) {
	pair(b, 0, "LTYPE")
	pair(b, 2, name)
	pair(b, 70, "0")
	pair(b, 3, said)
	pair(b, 72, "65")
	pair(b, 73, strconv.Itoa(len(parts)))
	pair(b, 40, length)
	for _, p := range parts {
		pair(b, 49, p)
	}
}
