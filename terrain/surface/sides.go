package surface

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"crossfall/geodata"
)

// Distances from a break line, m; defaults of ours.
const (
	// taggedReach is how far off a line a height marked top or toe may stand
	// and still be told its side by the mark.
	taggedReach = 0.5
	// onLine is how near a height without a mark counts as on the line, its
	// side told by its level.
	onLine = 0.02
	// leastStep is the step under which a height beside a line counts as level
	// with the ground on one side.
	leastStep = 0.10
)

// sorting gives heights to the faces of a plot.
type sorting struct {
	spots  []geodata.SpotHeight
	faces  []face
	brinks []brink
	near   []int   // for each height the brink it belongs to, -1 for none
	own    []int   // the face of each height
	with   [][]int // the heights of each face, in order
	plain  [][]int // those whose place alone tells their face
	notes  []string
}

// sortHeights gives each height to the face it lies in, but heights on a break
// line by mark or level, and those of a bank's crest and toe to both faces they
// lie between.
func sortHeights(spots []geodata.SpotHeight, faces []face, brinks []brink) *sorting {
	s := &sorting{spots: spots, faces: faces, brinks: brinks, with: make([][]int, len(faces)), plain: make([][]int, len(faces))}
	for i, h := range spots {
		b, d := s.nearest(h.At)
		marked := h.Side != geodata.NoSide && d <= taggedReach
		if !marked && d > onLine {
			b = -1
		}
		s.near = append(s.near, b)
		s.own = append(s.own, -1)
		if b < 0 {
			s.own[i] = faceAt(faces, h.At)
			s.plain[s.own[i]] = append(s.plain[s.own[i]], i)
		}
	}
	banks := s.banks()
	for i, h := range spots {
		if s.near[i] < 0 {
			s.give(i, s.own[i])
			continue
		}
		b := brinks[s.near[i]]
		tied := h.Side != geodata.NoSide && (banks[b.left] || banks[b.right])
		switch {
		case tied && banks[b.left]:
			s.own[i] = b.right
		case tied:
			s.own[i] = b.left
		case h.Side == geodata.NoSide:
			s.own[i] = s.nearerLevel(i, b)
			s.notes = append(s.notes, fmt.Sprintf(
				"%s stands on a break line without a mark of top or toe; it was taken for the side whose level it is nearer to.", sentence(called(h.Name, i))))
		default:
			s.own[i] = s.marked(h, b)
		}
		s.give(i, s.own[i])
		if tied {
			s.give(i, b.left+b.right-s.own[i])
		}
	}
	return s
}

func (s *sorting) give(i, face int) { s.with[face] = append(s.with[face], i) }

// nearest is the brink nearest to a point.
func (s *sorting) nearest(p orb.Point) (int, float64) {
	best, d := -1, math.Inf(1)
	for i, b := range s.brinks {
		if e := planar.DistanceFromSegment(b.from, b.to, p); e < d {
			best, d = i, e
		}
	}
	return best, d
}

// level is the ground of a face at a point by its plain heights: their plane,
// or their mean weighted by nearness; ok is false without any.
func (s *sorting) level(f int, p orb.Point) (z float64, ok bool) {
	var spots []geodata.SpotHeight
	for _, i := range s.plain[f] {
		spots = append(spots, s.spots[i])
	}
	if len(spots) == 0 {
		return 0, false
	}
	if sv, err := newSurvey(spots, Options{}); err == nil {
		if l, ok := fitLinear(sv, planeTerms, nil); ok {
			return l.HeightAt(p)
		}
	}
	sum, weights := 0.0, 0.0
	for _, h := range spots {
		d := planar.Distance(h.At, p)
		w := 1 / (d*d + onLine*onLine)
		sum, weights = sum+w*h.Height, weights+w
	}
	return sum / weights, true
}

// nearerLevel is the side whose ground is nearer to a height.
func (s *sorting) nearerLevel(i int, b brink) int {
	h := s.spots[i]
	left, okLeft := s.level(b.left, h.At)
	right, okRight := s.level(b.right, h.At)
	if okLeft && okRight {
		if math.Abs(h.Height-right) < math.Abs(h.Height-left) {
			return b.right
		}
		return b.left
	}
	return faceAt(s.faces, h.At)
}

// marked is the side of a wall for a height marked top or toe: the higher or
// the lower one by the heights away from the line. Where those tell one side
// only, a height level with it lies there and any other across; where they tell
// none, its place decides.
func (s *sorting) marked(h geodata.SpotHeight, b brink) int {
	left, okLeft := s.level(b.left, h.At)
	right, okRight := s.level(b.right, h.At)
	switch {
	case okLeft && okRight:
		if (left > right) == (h.Side == geodata.Top) {
			return b.left
		}
		return b.right
	case okLeft:
		if math.Abs(h.Height-left) <= leastStep {
			return b.left
		}
		return b.right
	case okRight:
		if math.Abs(h.Height-right) <= leastStep {
			return b.right
		}
		return b.left
	}
	return faceAt(s.faces, h.At)
}

// of is the heights of a face.
func (s *sorting) of(face int) []geodata.SpotHeight {
	var out []geodata.SpotHeight
	for _, i := range s.with[face] {
		out = append(out, s.spots[i])
	}
	return out
}

// longestBrink is the fitted face that shares the longest brink with a face; -1
// without one.
func (s *sorting) longestBrink(f int, fitted []bool) int {
	shared := make([]float64, len(s.faces))
	for _, b := range s.brinks {
		if other := b.left + b.right - f; (b.left == f || b.right == f) && fitted[other] {
			shared[other] += planar.Distance(b.from, b.to)
		}
	}
	best := -1
	for i, d := range shared {
		if d > 0 && (best < 0 || d > shared[best]) {
			best = i
		}
	}
	if best < 0 {
		for i := range fitted {
			if fitted[i] && (best < 0 || len(s.with[i]) > len(s.with[best])) {
				best = i
			}
		}
	}
	return best
}

// sentence begins with a capital letter.
func sentence(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}
