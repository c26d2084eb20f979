package access

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// move is one straight step of a barrow from cell to cell.
type move struct {
	east, north int
	length      float64  // in cells
	bearing     float64  // radians anticlockwise from east
	side        int      // which of the eight directions, or -1
	by          [][2]int // cells that must be free besides its ends
}

// headings are the ways that a barrow may point, anticlockwise from east.
type headings struct {
	moves []move
	turn  []float32 // cost of turning from each to the next
}

// few are 16 headings, 18 to 27 degrees apart, for ground that is nowhere steeper than
// a way may be; many are 40, 4 to 14 degrees apart, so that a way to and fro
// climbs near the greatest gradient.
var (
	few  = newHeadings([][2]int{{1, 0}, {2, 1}, {1, 1}})
	many = newHeadings([][2]int{{1, 0}, {4, 1}, {3, 1}, {2, 1}, {3, 2}, {1, 1}})
)

// newHeadings are some steps and all that are like them.
func newHeadings(steps [][2]int) *headings {
	var out []move
	for _, d := range steps {
		for _, e := range [][2]int{{d[0], d[1]}, {d[1], d[0]}} {
			for _, s := range [][2]int{{1, 1}, {1, -1}, {-1, 1}, {-1, -1}} {
				m := move{east: e[0] * s[0], north: e[1] * s[1]}
				m.length = math.Hypot(float64(m.east), float64(m.north))
				m.bearing = math.Mod(math.Atan2(float64(m.north), float64(m.east))+2*math.Pi, 2*math.Pi)
				m.by = passed(m.east, m.north)
				m.side = slices.Index(directions[:], orb.Point{float64(m.east), float64(m.north)})
				if !slices.ContainsFunc(out, func(o move) bool { return o.east == m.east && o.north == m.north }) {
					out = append(out, m)
				}
			}
		}
	}
	slices.SortFunc(out, func(a, b move) int {
		if a.bearing < b.bearing {
			return -1
		}
		return 1
	})
	h := &headings{moves: out, turn: make([]float32, len(out))}
	for k := range out {
		angle := out[(k+1)%len(out)].bearing - out[k].bearing
		h.turn[k] = float32(turnWeight * math.Mod(angle+2*math.Pi, 2*math.Pi))
	}
	return h
}

// knights are the steps of one cell across for two along.
var knights = slices.DeleteFunc(slices.Clone(few.moves), func(m move) bool { return m.side >= 0 })

// passed are the middles of cells between which a step passes: at each column
// on its way, or row where it is steep, the two on either side of it.
func passed(east, north int) [][2]int {
	var out [][2]int
	long, short := east, north
	steep := abs(north) > abs(east)
	if steep {
		long, short = north, east
	}
	for k := 1; k < abs(long); k++ {
		along := k * long / abs(long)
		across := float64(k) * float64(short) / float64(abs(long))
		for _, a := range []float64{math.Floor(across), math.Ceil(across)} {
			if steep {
				out = append(out, [2]int{int(a), along})
			} else {
				out = append(out, [2]int{along, int(a)})
			}
		}
	}
	return out
}

func abs(n int) int { return max(n, -n) }

// stride is the cell a long step ends in; ok is false unless the ground about
// the whole of it is open.
func (v *view) stride(i int, m *move) (int, bool) {
	j, ok := v.step(i, m.east, m.north)
	if !ok || v.clear[i] < v.open || v.clear[j] < v.open {
		return 0, false
	}
	for _, b := range m.by {
		if v.clear[i+b[1]*v.cols+b[0]] < v.open {
			return 0, false
		}
	}
	return j, true
}
