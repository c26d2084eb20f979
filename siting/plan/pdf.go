package plan

import (
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"
	"unicode"

	"codeberg.org/go-pdf/fpdf"
	"github.com/paulmach/orb"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// PDFFace is the typeface that PrepareFonts adds to a document, plain and in
// bold ("B").
const PDFFace = "go"

// pointsInMM is the number of typographic points in a millimetre.
const pointsInMM = 72 / 25.4

// unmoved stands in every document for the times of making and changing it, so
// that the same input gives the same bytes whenever it is written.
var unmoved = time.Date(2000, time.January, 1, 0, 0, 0, 0, time.UTC)

// NewPDF starts a document without a page: millimetres, no margins, the
// typeface at hand, and bytes that depend on nothing but what is drawn.
func NewPDF(title, subject string) *fpdf.Fpdf {
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: 210, Ht: 297}})
	doc.SetMargins(0, 0, 0)
	doc.SetAutoPageBreak(false, 0)
	doc.SetCatalogSort(true)
	doc.SetCreationDate(unmoved)
	doc.SetModificationDate(unmoved)
	doc.SetProducer("crossfall", true)
	doc.SetTitle(PDFText(title), true)
	doc.SetSubject(PDFText(subject), true)
	doc.SetLang("en")
	doc.AddUTF8FontFromBytes(PDFFace, "", goregular.TTF)
	doc.AddUTF8FontFromBytes(PDFFace, "B", gobold.TTF)
	return doc
}

// PDFText is a text as the properties of a document and its list of parts can hold
// it, which a reader shows in letters of its own: those beyond the 65 536 of the
// basic plane, controls and broken bytes become the replacement character.
func PDFText(t string) string {
	return strings.Map(func(r rune) rune {
		if r > 0xffff || unicode.IsControl(r) {
			return unicode.ReplacementChar
		}
		return r
	}, strings.ToValidUTF8(t, string(unicode.ReplacementChar)))
}

// AddPDFPage adds a page of w by h mm, whichever is longer.
func AddPDFPage(doc *fpdf.Fpdf, w, h float64) {
	way := "P"
	if w > h { // the library turns landscape pages itself
		way, w, h = "L", h, w
	}
	doc.AddPageFormat(way, fpdf.SizeType{Wd: w, Ht: h})
}

// PDF writes the figure as a document of one page of its size.
func (f Figure) PDF(w io.Writer) error {
	doc := NewPDF(f.Title, f.Description)
	AddPDFPage(doc, f.Width, f.Height)
	var letters Letters
	on := OnPDF(doc, orb.Point{}, &letters)
	f.draw(on)
	f.foot(on, &letters)
	if err := doc.Output(w); err != nil {
		return fmt.Errorf("write the drawing: %w", err)
	}
	return nil
}

// pdfDrawing is a Drawing on the current page of a document.
type pdfDrawing struct {
	doc    *fpdf.Fpdf
	corner orb.Point // of the drawing on the page, mm
	texts  *Letters
}

// OnPDF is a Drawing on the current page of a document that NewPDF started,
// with its top left corner at a place of the page in millimetres. Its texts are
// written by letters, which may be nil.
func OnPDF(doc *fpdf.Fpdf, corner orb.Point, letters *Letters) Drawing {
	return pdfDrawing{doc, corner, letters}
}

func (p pdfDrawing) on(q orb.Point) (x, y float64) { return p.corner[0] + q[0], p.corner[1] + q[1] }

// Polygon draws a closed ring.
func (p pdfDrawing) Polygon(ring []orb.Point, s Style) {
	if p.path(ring) {
		p.doc.ClosePath()
		p.paint(s)
	}
}

// Line draws an open line.
func (p pdfDrawing) Line(pts []orb.Point, s Style) {
	s.Fill = ""
	if p.path(pts) {
		p.paint(s)
	}
}

func (p pdfDrawing) path(pts []orb.Point) bool {
	if len(pts) < 2 {
		return false
	}
	p.doc.MoveTo(p.on(pts[0]))
	for _, q := range pts[1:] {
		p.doc.LineTo(p.on(q))
	}
	return true
}

// paint fills and strokes the current path.
func (p pdfDrawing) paint(s Style) {
	how := ""
	if s.Fill != "" {
		p.doc.SetFillColor(s.Fill.RGB())
		how = "F"
	}
	if s.Stroke != "" && s.Width > 0 {
		p.doc.SetDrawColor(s.Stroke.RGB())
		p.doc.SetLineWidth(s.Width)
		p.doc.SetLineJoinStyle("round")
		p.doc.SetDashPattern(s.Dash, 0)
		how += "D"
	}
	if how == "" {
		how = "n"
	}
	p.doc.DrawPath(how)
}

// Text draws one line of text. A halo is the same text first, stroked broadly
// in white.
func (p pdfDrawing) Text(at orb.Point, t string, s TextStyle) {
	weight := ""
	if s.Bold {
		weight = "B"
	}
	p.doc.SetFont(PDFFace, weight, s.Size*pointsInMM)
	t = p.texts.Text(t)
	x, y := p.on(at)
	left := x - p.doc.GetStringWidth(t)*[...]float64{Middle: .5, Start: 0, End: 1}[s.Anchor]
	if s.Turn != 0 {
		p.doc.TransformBegin()
		p.doc.TransformRotate(-s.Turn, x, y)
		defer p.doc.TransformEnd()
	}
	base := y + capMiddle*s.Size
	if s.Halo {
		p.doc.SetDrawColor(Paper.RGB())
		p.doc.SetLineWidth(s.Size * haloWidth)
		p.doc.SetLineJoinStyle("round")
		p.doc.SetDashPattern(nil, 0)
		p.doc.SetTextRenderingMode(1)
		p.doc.Text(left, base, t)
		p.doc.SetTextRenderingMode(0)
	}
	p.doc.SetTextColor(s.Ink.RGB())
	p.doc.Text(left, base, t)
}

// RGB are the parts of the ink, 0 to 255; black for one that is not a colour.
func (i Ink) RGB() (r, g, b int) {
	v, err := strconv.ParseUint(string(i[min(1, len(i)):]), 16, 32)
	if err != nil {
		return 0, 0, 0
	}
	return int(v >> 16 & 255), int(v >> 8 & 255), int(v & 255)
}

// haloWidth is the breadth of the stroke of a halo, in sizes of type.
const haloWidth = .35
