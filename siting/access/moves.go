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

// moves are the 40 headings, anticlockwise from east, 4 to 14 degrees apart.
var moves = func() []move {
	var out []move
	for _, d := range [][2]int{{1, 0}, {4, 1}, {3, 1}, {2, 1}, {3, 2}, {1, 1}} {
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
	return out
}()

// knights are those of them that go one cell across for two along.
var knights = slices.DeleteFunc(slices.Clone(moves), func(m move) bool { return m.length < 2 || m.length > 2.5 })

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
