package report

import (
	"strings"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting/plan"

	"codeberg.org/go-pdf/fpdf"
)

// Sizes of type, mm; a typographic point is 0.353 mm. Defaults of ours.
const (
	type1     = 6.4
	type2     = 4.6
	type3     = 3.5
	bodyType  = 3.0
	smallType = 2.65
	fineType  = 2.1
)

// roundOff is what the widths of words may add up to over that of their line, mm.
const roundOff = .01

const (
	leading  = 1.32 // from line to line, in sizes of type
	ascent   = .9   // of the first line's baseline under its top, in sizes of type
	pointsMM = 72 / 25.4
)

// measure knows how wide words are.
type measure struct {
	doc   *fpdf.Fpdf // without a page: it only measures
	known [2]map[string]float64
}

func newMeasure() *measure {
	return &measure{doc: plan.NewPDF("", ""), known: [2]map[string]float64{{}, {}}}
}

// width of a text without line breaks, mm.
func (m *measure) width(t string, size float64, bold bool) float64 {
	face, weight := 0, ""
	if bold {
		face, weight = 1, "B"
	}
	w, ok := m.known[face][t]
	if !ok {
		m.doc.SetFont(plan.PDFFace, weight, 10*pointsMM)
		w = m.doc.GetStringWidth((*plan.Letters)(nil).Text(t)) / 10
		m.known[face][t] = w
	}
	return w * size
}

// lines breaks a text at its spaces; figures stay whole, and a word wider than
// the room is broken where it must.
func (m *measure) lines(t string, size float64, bold bool, room float64) []string {
	var out []string
	line, wide := "", 0.0
	space := m.width(" ", size, bold)
	for _, word := range breakable(t) {
		for _, piece := range m.pieces(strings.ReplaceAll(word, words.NoBreak, " "), size, bold, room) {
			w := m.width(piece, size, bold)
			if line != "" && wide+space+w <= room+roundOff {
				line, wide = line+" "+piece, wide+space+w
				continue
			}
			if line != "" {
				out = append(out, line)
			}
			line, wide = piece, w
		}
	}
	if line != "" {
		out = append(out, line)
	}
	return out
}

// breakable are the parts of a text between which a line may end.
func breakable(t string) []string {
	return strings.FieldsFunc(words.Whole(t), func(r rune) bool { return r == ' ' || r == '\n' })
}

// pieces is a word, cut into parts that fit.
func (m *measure) pieces(word string, size float64, bold bool, room float64) []string {
	if m.width(word, size, bold) <= room+roundOff {
		return []string{word}
	}
	var out []string
	part := ""
	for _, r := range word {
		if part != "" && m.width(part+string(r), size, bold) > room {
			out = append(out, part)
			part = ""
		}
		part += string(r)
	}
	return append(out, part)
}

// write sets one line with its top left corner at a place.
func (s *sheets) write(x, y float64, t string, size float64, bold bool, ink plan.Ink) {
	weight := ""
	if bold {
		weight = "B"
	}
	s.doc.SetFont(plan.PDFFace, weight, size*pointsMM)
	s.doc.SetTextColor(ink.RGB())
	s.doc.Text(x, y+ascent*size, s.letters.Text(t))
}

// set writes lines under one another.
func (s *sheets) set(x, y float64, lines []string, size float64, bold bool, ink plan.Ink) {
	for i, l := range lines {
		s.write(x, y+float64(i)*size*leading, l, size, bold, ink)
	}
}

// rule draws a level line.
func (s *sheets) rule(x, y, wide, weight float64, ink plan.Ink) {
	s.doc.SetDrawColor(ink.RGB())
	s.doc.SetLineWidth(weight)
	s.doc.SetDashPattern(nil, 0)
	s.doc.Line(x, y, x+wide, y)
}
