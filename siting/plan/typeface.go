package plan

import (
	"math"

	"github.com/paulmach/orb"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// typeface is the outlines of letters, plain and bold.
type typeface struct {
	plain, bold *sfnt.Font
	buffer      sfnt.Buffer
}

func newTypeface() (*typeface, error) {
	both, err := faces()
	if err != nil {
		return nil, err
	}
	return &typeface{plain: both[0], bold: both[1]}, nil
}

// perEm is how many of the typeface's own units are asked for in one size of
// type: enough for outlines to lose nothing.
const perEm = 1024

// outline is a text as rings about its point, mm.
func (l *typeface) outline(t string, s TextStyle) [][]orb.Point {
	face := l.plain
	if s.Bold {
		face = l.bold
	}
	var rings [][]orb.Point
	x := 0.0
	for _, r := range t {
		glyph, err := face.GlyphIndex(&l.buffer, r)
		if err != nil {
			continue
		}
		if segments, err := face.LoadGlyph(&l.buffer, glyph, fixed.I(perEm), nil); err == nil {
			rings = append(rings, flattened(segments, x)...)
		}
		if advance, err := face.GlyphAdvance(&l.buffer, glyph, fixed.I(perEm), font.HintingNone); err == nil {
			x += float64(advance) / 64
		}
	}
	left := -x * [...]float64{Middle: .5, Start: 0, End: 1}[s.Anchor]
	sin, cos := math.Sincos(s.Turn * math.Pi / 180)
	k := s.Size / perEm
	for _, ring := range rings {
		for i, q := range ring {
			across, down := (q[0]+left)*k, q[1]*k+capMiddle*s.Size
			ring[i] = orb.Point{across*cos - down*sin, across*sin + down*cos}
		}
	}
	return rings
}

// bends is the number of straight pieces that stand for one curve of a letter.
const bends = 4

// flattened are the outlines of one letter, x to the right of the text's start.
func flattened(segments sfnt.Segments, x float64) [][]orb.Point {
	var rings [][]orb.Point
	at := func(p fixed.Point26_6) orb.Point { return orb.Point{x + float64(p.X)/64, float64(p.Y) / 64} }
	for _, g := range segments {
		if g.Op == sfnt.SegmentOpMoveTo {
			rings = append(rings, []orb.Point{at(g.Args[0])})
			continue
		}
		if len(rings) == 0 {
			continue
		}
		ring := &rings[len(rings)-1]
		from := (*ring)[len(*ring)-1]
		switch g.Op {
		case sfnt.SegmentOpLineTo:
			*ring = append(*ring, at(g.Args[0]))
		case sfnt.SegmentOpQuadTo:
			a, b := at(g.Args[0]), at(g.Args[1])
			for i := 1; i <= bends; i++ {
				t := float64(i) / bends
				*ring = append(*ring, between(between(from, a, t), between(a, b, t), t))
			}
		case sfnt.SegmentOpCubeTo:
			a, b, c := at(g.Args[0]), at(g.Args[1]), at(g.Args[2])
			for i := 1; i <= bends; i++ {
				t := float64(i) / bends
				ab, bc, cd := between(from, a, t), between(a, b, t), between(b, c, t)
				*ring = append(*ring, between(between(ab, bc, t), between(bc, cd, t), t))
			}
		}
	}
	return rings
}
