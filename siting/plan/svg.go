package plan

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/paulmach/orb"
)

// capMiddle is the height of the middle of a capital above the baseline, in
// parts of the size of type: capitals of common sans-serif faces are .7 high.
const capMiddle = .35

// svg is a Drawing that gathers SVG elements.
type svg struct{ b bytes.Buffer }

// newSVG starts a document of w by h mm that says what it shows. The name tells its ids
// from those of other drawings on one page.
func newSVG(name string, w, h float64, title, description string) *svg {
	s := &svg{}
	name = escape(name)
	fmt.Fprintf(&s.b, `<svg xmlns="http://www.w3.org/2000/svg" width="%[1]smm" height="%[2]smm" viewBox="0 0 %[3]s %[4]s" role="img" aria-labelledby="%[5]s-title %[5]s-description" font-family="Helvetica, Arial, 'Liberation Sans', sans-serif">`+"\n",
		mm(w), mm(h), mm(w), mm(h), name)
	fmt.Fprintf(&s.b, "<title id=\"%[1]s-title\">%[2]s</title>\n<desc id=\"%[1]s-description\">%[3]s</desc>\n", name, escape(title), escape(description))
	s.Polygon([]orb.Point{{0, 0}, {w, 0}, {w, h}, {0, h}}, Style{Fill: Paper, Class: "sheet"})
	return s
}

// writeTo ends the document and writes it.
func (s *svg) writeTo(w io.Writer) error {
	_, err := w.Write(append(s.b.Bytes(), "</svg>\n"...))
	return err
}

// Polygon draws a closed ring.
func (s *svg) Polygon(ring []orb.Point, st Style) {
	fmt.Fprintf(&s.b, "<polygon points=\"%s\"%s/>\n", points(ring), attributes(st))
}

// Line draws an open line.
func (s *svg) Line(pts []orb.Point, st Style) {
	st.Fill = ""
	fmt.Fprintf(&s.b, "<polyline points=\"%s\"%s/>\n", points(pts), attributes(st))
}

// Text draws one line of text.
func (s *svg) Text(at orb.Point, t string, st TextStyle) {
	turn := st.Turn * math.Pi / 180
	x, y := at[0]-math.Sin(turn)*capMiddle*st.Size, at[1]+math.Cos(turn)*capMiddle*st.Size
	fmt.Fprintf(&s.b, `<text x="%s" y="%s" font-size="%s" fill="%s"`, mm(x), mm(y), mm(st.Size), st.Ink)
	if st.Bold {
		s.b.WriteString(` font-weight="bold"`)
	}
	s.b.WriteString([...]string{` text-anchor="middle"`, "", ` text-anchor="end"`}[st.Anchor])
	if r := mm(st.Turn); r != "0.00" {
		fmt.Fprintf(&s.b, ` transform="rotate(%s %s %s)"`, r, mm(x), mm(y))
	}
	if st.Halo {
		fmt.Fprintf(&s.b, ` stroke="%s" stroke-width="%s" stroke-linejoin="round" paint-order="stroke"`, Paper, mm(st.Size*haloWidth))
	}
	s.class(st.Class)
	fmt.Fprintf(&s.b, ">%s</text>\n", escape(t))
}

func (s *svg) class(c string) {
	if c != "" {
		fmt.Fprintf(&s.b, ` class="%s"`, escape(c))
	}
}

// attributes are the presentation attributes of a style.
func attributes(st Style) string {
	var b strings.Builder
	if st.Class != "" {
		fmt.Fprintf(&b, ` class="%s"`, escape(st.Class))
	}
	fill := st.Fill
	if fill == "" {
		fill = "none"
	}
	fmt.Fprintf(&b, ` fill="%s"`, fill)
	if st.Stroke == "" || st.Width <= 0 {
		return b.String()
	}
	fmt.Fprintf(&b, ` stroke="%s" stroke-width="%s" stroke-linejoin="round"`, st.Stroke, mm(st.Width))
	if len(st.Dash) > 0 {
		parts := make([]string, len(st.Dash))
		for i, d := range st.Dash {
			parts[i] = mm(d)
		}
		fmt.Fprintf(&b, ` stroke-dasharray="%s"`, strings.Join(parts, " "))
	}
	return b.String()
}

func points(pts []orb.Point) string {
	parts := make([]string, len(pts))
	for i, p := range pts {
		parts[i] = mm(p[0]) + "," + mm(p[1])
	}
	return strings.Join(parts, " ")
}

// mm writes a length with two decimals and never as minus zero.
func mm(v float64) string {
	t := strconv.FormatFloat(v, 'f', 2, 64)
	if t == "-0.00" {
		return "0.00"
	}
	return t
}

// escape makes a text safe inside XML, attributes included; characters that
// XML forbids become the replacement character.
func escape(t string) string {
	var b bytes.Buffer
	if err := xml.EscapeText(&b, []byte(t)); err != nil {
		return ""
	}
	return b.String()
}
