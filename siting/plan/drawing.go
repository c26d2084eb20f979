package plan

import "github.com/paulmach/orb"

// Drawing takes shapes in millimetres on paper, in the order in which later
// ones cover earlier ones.
type Drawing interface {
	Polygon(ring []orb.Point, s Style) // closed; the first point need not be repeated
	Line(pts []orb.Point, s Style)
	Text(at orb.Point, t string, s TextStyle)
}

// Ink is a colour as #rrggbb; the empty ink draws nothing.
type Ink string

// The inks of the plan. Accent is kept for water.
const (
	Black  Ink = "#1a1a1a"
	Grey   Ink = "#666666"
	Pale   Ink = "#eeeeee"
	Paper  Ink = "#ffffff"
	Accent Ink = "#0b4a8f"
)

// Style is how a line or polygon looks.
type Style struct {
	Stroke Ink
	Width  float64   // of the stroke, mm
	Dash   []float64 // lengths of stroke and gap in turn, mm; nil: unbroken
	Fill   Ink       // polygons only
	Class  string    // what it is, in words that a style sheet can select
}

// finer is the style with its stroke and dashes k times as large, for small
// shapes.
func (s Style) finer(k float64) Style {
	s.Width *= k
	dash := make([]float64, len(s.Dash))
	for i, d := range s.Dash {
		dash[i] = d * k
	}
	s.Dash = dash
	return s
}

// Anchor says which part of a text lies at its point.
type Anchor uint8

// The anchors.
const (
	Middle Anchor = iota
	Start
	End
)

// TextStyle is how a text looks. The text's point is half-way up its capitals.
type TextStyle struct {
	Size   float64 // of the type, mm
	Bold   bool
	Anchor Anchor
	Turn   float64 // degrees, clockwise on paper
	Ink    Ink
	Halo   bool // a white rim that breaks the lines behind
	Class  string
}
