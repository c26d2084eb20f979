package plan

import (
	"math"
	"strings"
	"unicode"

	"github.com/paulmach/orb"
)

// box is a rectangle on paper, turned clockwise by turn degrees.
type box struct {
	centre orb.Point
	w, h   float64
	turn   float64
}

// axes are the directions of the box's width and height.
func (b box) axes() [2]orb.Point {
	s, c := math.Sincos(b.turn * math.Pi / 180)
	return [2]orb.Point{{c, s}, {-s, c}}
}

func (b box) corners() [4]orb.Point {
	a := b.axes()
	var out [4]orb.Point
	for i, k := range [4][2]float64{{-.5, -.5}, {.5, -.5}, {.5, .5}, {-.5, .5}} {
		out[i] = orb.Point{
			b.centre[0] + a[0][0]*b.w*k[0] + a[1][0]*b.h*k[1],
			b.centre[1] + a[0][1]*b.w*k[0] + a[1][1]*b.h*k[1],
		}
	}
	return out
}

// overlaps tells whether two boxes share ground: they do not when a side of
// either separates them (separating axis theorem).
func (b box) overlaps(o box) bool {
	far := (b.w + b.h + o.w + o.h) / 2 // over half of both diagonals: most pairs end here
	if math.Abs(b.centre[0]-o.centre[0]) >= far || math.Abs(b.centre[1]-o.centre[1]) >= far {
		return false
	}
	reach := (math.Hypot(b.w, b.h) + math.Hypot(o.w, o.h)) / 2
	if math.Hypot(b.centre[0]-o.centre[0], b.centre[1]-o.centre[1]) >= reach {
		return false
	}
	bc, oc := b.corners(), o.corners()
	ba, oa := b.axes(), o.axes()
	for _, axis := range [...]orb.Point{ba[0], ba[1], oa[0], oa[1]} {
		bl, bh := span(bc, axis)
		ol, oh := span(oc, axis)
		if bh <= ol || oh <= bl {
			return false
		}
	}
	return true
}

func span(pts [4]orb.Point, axis orb.Point) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range pts {
		v := p[0]*axis[0] + p[1]*axis[1]
		low, high = math.Min(low, v), math.Max(high, v)
	}
	return low, high
}

// within tells whether the whole box lies inside a bound.
func (b box) within(o orb.Bound) bool {
	for _, c := range b.corners() {
		if !o.Contains(c) {
			return false
		}
	}
	return true
}

// labels keeps the places of texts, so that no text lies on another, and of
// drawn marks that texts should leave free. Placing is greedy: the first come
// keeps its place.
type labels struct {
	area  orb.Bound
	texts []box
	marks []box
}

// free tells whether a text may stand in b; strict also keeps it off marks.
func (l *labels) free(b box, strict bool) bool {
	if !b.within(l.area) || hits(b, l.texts) {
		return false
	}
	return !strict || !hits(b, l.marks)
}

func hits(b box, taken []box) bool {
	for _, t := range taken {
		if b.overlaps(t) {
			return true
		}
	}
	return false
}

// place takes the first free box and keeps it. Without strict, a second round
// lets the text stand on marks.
func (l *labels) place(tries []box, strict bool) (box, bool) {
	rounds := []bool{true, false}
	if strict {
		rounds = rounds[:1]
	}
	for _, careful := range rounds {
		for _, b := range tries {
			if l.free(b, careful) {
				l.texts = append(l.texts, b)
				return b, true
			}
		}
	}
	return box{}, false
}

// mark keeps a drawn mark of so many mm each way free of text where possible.
func (l *labels) mark(at orb.Point, size float64) {
	l.marks = append(l.marks, box{centre: at, w: size, h: size})
}

// markLine keeps a drawn line free of text where possible.
func (l *labels) markLine(pts []orb.Point) {
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		l.marks = append(l.marks, box{
			centre: orb.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2},
			w:      math.Hypot(b[0]-a[0], b[1]-a[1]), h: .4,
			turn: math.Atan2(b[1]-a[1], b[0]-a[0]) * 180 / math.Pi,
		})
	}
}

// beside are boxes for a text of w by h next to a mark: right, left, above,
// below, then the corners.
func beside(at orb.Point, w, h, gap float64) []box {
	x, y := gap+w/2, gap+h/2
	var out []box
	for _, k := range [8][2]float64{{1, 0}, {-1, 0}, {0, -1}, {0, 1}, {1, -1}, {1, 1}, {-1, -1}, {-1, 1}} {
		out = append(out, box{centre: orb.Point{at[0] + k[0]*x, at[1] + k[1]*y}, w: w, h: h})
	}
	return out
}

// textWidth is the room a text takes, mm: the advance widths of a common
// sans-serif face by groups of letters, a little generous; of letters that a
// drawing may not have, of those that stand for them.
func textWidth(t string, size float64, bold bool) float64 {
	em := 0.0
	for _, r := range (*Letters)(nil).Text(t) {
		switch {
		case r == 'i' || r == 'j' || r == 'l' || r == 'I' || r == '.' || r == ',' || r == ':' || r == ';' || r == '\'' || r == '|' || r == ' ':
			em += .28
		case r == 'f' || r == 't' || r == 'r' || r == '(' || r == ')' || r == '-' || r == '/':
			em += .36
		case r == 'm' || r == 'w' || r == 'M' || r == 'W' || r == '%' || r == '@':
			em += .89
		case unicode.IsUpper(r):
			em += .72
		default:
			em += .57
		}
	}
	if bold {
		em *= 1.07
	}
	return em * size
}

// wrap breaks a text at spaces into lines no wider than room; a single word
// that is wider stands on a line of its own.
func wrap(t string, size float64, bold bool, room float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(t) {
		switch {
		case line == "":
			line = word
		case textWidth(line+" "+word, size, bold) <= room:
			line += " " + word
		default:
			lines = append(lines, line)
			line = word
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
