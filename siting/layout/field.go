package layout

import (
	"cmp"
	"math"
	"slices"

	"crossfall/terrain"
)

// field is all places that beds of one size may take, in rows of several
// directions. Two beds conflict when their rectangles, each grown by half a
// path all round, overlap: side by side and end to end a path's width is kept,
// and a little more between corners and between turned beds.
type field struct {
	length, width, path float64 // m
	rowCost             float64 // marks taken off for each row that holds a bed
	directions          []direction
	rows                []row     // of all directions, by direction and then across
	sites               []site    // by row and then along it
	weightOf            []float64 // of the sites
}

// direction is a bearing of long sides, and the rows of that bearing.
type direction struct {
	bearing     terrain.Bearing
	east, north float64 // unit vector along the long side
	first, end  int     // of field.rows
}

// row is a straight line of places.
type row struct {
	across     float64 // m to the left of the long side's direction
	first, end int     // of field.sites
}

// site is a place for one bed, by its middle.
type site struct {
	direction, row int
	along, across  float64 // m
	x, y           float64 // m
	weight         float64 // marks, more being better
}

// newField puts places in order. Each names its direction, along and weight;
// places of one direction with the same across, to 1e-6 m, are one row.
func newField(length, width, path, rowCost float64, bearings []terrain.Bearing, sites []site) *field {
	f := &field{length: length, width: width, path: path, rowCost: rowCost, sites: sites}
	slices.SortStableFunc(f.sites, func(a, b site) int {
		return cmp.Or(cmp.Compare(a.direction, b.direction), cmp.Compare(rowKey(a), rowKey(b)), cmp.Compare(a.along, b.along))
	})
	for _, b := range bearings {
		e, n := b.Unit()
		f.directions = append(f.directions, direction{bearing: b, east: e, north: n})
	}
	next := 0
	for d := range f.directions {
		f.directions[d].first = len(f.rows)
		for next < len(f.sites) && f.sites[next].direction == d {
			r := row{across: f.sites[next].across, first: next}
			for key := rowKey(f.sites[next]); next < len(f.sites) && f.sites[next].direction == d && rowKey(f.sites[next]) == key; next++ {
				s := &f.sites[next]
				s.row = len(f.rows)
				e, n := f.directions[d].east, f.directions[d].north
				s.x, s.y = s.along*e-s.across*n, s.along*n+s.across*e
			}
			r.end = next
			f.rows = append(f.rows, r)
		}
		f.directions[d].end = len(f.rows)
	}
	for _, s := range f.sites {
		f.weightOf = append(f.weightOf, s.weight)
	}
	return f
}

func rowKey(s site) float64 { return math.Round(s.across * 1e6) }

// conflict is true for two places that cannot both be taken.
func (f *field) conflict(i, j int) bool {
	a, b := &f.sites[i], &f.sites[j]
	long, short := f.length+f.path, f.width+f.path
	if a.direction == b.direction {
		return math.Abs(a.along-b.along) < long-hair && math.Abs(a.across-b.across) < short-hair
	}
	x, y := b.x-a.x, b.y-a.y
	square := x*x + y*y
	if square >= long*long+short*short {
		return false
	}
	if square < (short-hair)*(short-hair) { // the circles inside are nearer
		return true
	}
	u, v := f.directions[a.direction], f.directions[b.direction]
	cos, sin := math.Abs(u.east*v.east+u.north*v.north), math.Abs(u.east*v.north-u.north*v.east)
	reach := [2]float64{(long + long*cos + short*sin) / 2, (short + long*sin + short*cos) / 2}
	for _, d := range [2]direction{u, v} {
		if math.Abs(x*d.east+y*d.north) >= reach[0]-hair || math.Abs(y*d.east-x*d.north) >= reach[1]-hair {
			return false
		}
	}
	return true
}

// score is the sum of weights less the cost of the rows used.
func (f *field) score(chosen []int) float64 {
	sum := 0.0
	seen := map[int]bool{}
	for _, i := range chosen {
		sum += f.sites[i].weight
		seen[f.sites[i].row] = true
	}
	return sum - f.rowCost*float64(len(seen))
}

// rowsUsed is the number of rows that hold a bed.
func (f *field) rowsUsed(chosen []int) int {
	seen := map[int]bool{}
	for _, i := range chosen {
		seen[f.sites[i].row] = true
	}
	return len(seen)
}
