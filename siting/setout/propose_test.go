package setout_test

import (
	"testing"

	"crossfall/geodata"
	"crossfall/siting/setout"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// square is a plot of 20 by 20 m whose corners have names.
func square() setout.Site {
	return setout.Site{
		Boundary:    orb.Ring{{0, 0}, {20, 0}, {20, 20}, {0, 20}, {0, 0}},
		CornerNames: []string{"south-west corner", "south-east corner", "north-east corner", "north-west corner"},
	}
}

// Two marks in line with the beds fix nothing; a third is put where every row's
// end is fixed from it and one of them, and where a cane may be pushed in.
func TestThirdMark(t *testing.T) {
	site := square()
	site.Marks = []geodata.Fixture{mark("A", 0.5, 10), mark("B", 19.5, 10)}
	site.Beds = []setout.Input{bed("Bed 1", 5, 10.3, 3.6, 1.2), bed("Bed 2", 10, 10.3, 3.6, 1.2)}
	site.Allowed = func(p orb.Point) bool { return p[1] > 11 }
	s := setout.Make(site)
	require.Len(t, s.Marks, 3)
	third := s.Marks[2]
	assert.True(t, third.Proposed)
	assert.Regexp(t, `^on the boundary, \d+ m from its .* corner towards its .* corner$`, third.Where)
	assert.Greater(t, third.At[1], 11.0)
	require.Len(t, s.Rows, 1)
	for _, e := range s.Rows[0].Ends {
		require.Len(t, e.Ties, 2, "fixed with the third mark")
	}
	assert.Contains(t, s.Note, "30 to 150 degrees")
	assert.Contains(t, s.Steps[0].Do, "Set upright canes as marks")
}

// Without a boundary that can be found, the third mark is on open ground, taped
// from the two there are, and its own error adds to that of the rows.
func TestThirdMarkOnOpenGround(t *testing.T) {
	site := square()
	site.CornerNames = nil
	site.Marks = []geodata.Fixture{mark("A", 0.5, 10), mark("B", 19.5, 10)}
	site.Beds = []setout.Input{bed("Bed 1", 5, 10.3, 3.6, 1.2)}
	open := setout.Make(site)
	require.Len(t, open.Marks, 3)
	third := open.Marks[2]
	require.Len(t, third.Ties, 2)
	assert.Contains(t, open.Note, "on open ground")
	assert.Len(t, open.Rows[0].Ends[0].Ties, 2)

	site.Marks = append(site.Marks, mark("C", third.At[0], third.At[1]))
	sure := setout.Make(site)
	assert.Greater(t, open.Rows[0].Ends[0].Error.Value, sure.Rows[0].Ends[0].Error.Value)
}

// With no mark two canes are proposed at what stays, far enough apart to fix
// both ends, and told how far apart they stand.
func TestTwoCanes(t *testing.T) {
	site := square()
	site.Beds = []setout.Input{bed("Bed 1", 8, 10, 3.6, 1.2)}
	site.Stays = []setout.Spot{
		{Name: "left gate post", Where: "at the left post of the gate", At: orb.Point{2, 0}},
		{Name: "right gate post", Where: "at the right post of the gate", At: orb.Point{3, 0}},
		{Name: "shed corner", Where: "at the shed's south-west corner", At: orb.Point{15, 3}},
	}
	s := setout.Make(site)
	require.Len(t, s.Marks, 2)
	require.Len(t, s.Marks[0].Apart, 1)
	assert.Greater(t, s.Marks[0].Apart[0].Distance, 10.0, "not the two gate posts")
	assert.Contains(t, s.Note, "There is no mark to tape from")
	assert.Len(t, s.Rows[0].Ends[1].Ties, 2)
}

// A cane at what stays is better than one on the boundary, but one on the
// boundary that fixes all is better than several.
func TestNoCaneWithoutNeed(t *testing.T) {
	site := square()
	site.Marks = []geodata.Fixture{mark("A", 0, 0), mark("B", 20, 0)}
	site.Beds = []setout.Input{bed("Bed 1", 8, 10, 3.6, 1.2)}
	site.Stays = []setout.Spot{{Name: "shed corner", Where: "at the shed", At: orb.Point{10, 1}}}
	s := setout.Make(site)
	assert.Len(t, s.Marks, 2)
	assert.Empty(t, s.Note)
}

// Beds of one line make one row from its left; those off it by more than a hand,
// turned about, or behind a shed make rows of their own.
func TestRows(t *testing.T) {
	turned := bed("turned", 10, 10, 3.6, 1.2)
	turned.Corners = [4]orb.Point{turned.Corners[2], turned.Corners[3], turned.Corners[0], turned.Corners[1]}
	for _, c := range []struct {
		name string
		beds []setout.Input
		shed bool
		want [][]string
	}{
		{"in line", []setout.Input{bed("b", 6, 10, 3.6, 1.2), bed("a", 1, 10, 3.6, 1.2), bed("c", 11, 10.04, 3.6, 1.2)}, false, [][]string{{"a", "b", "c"}}},
		{"off it", []setout.Input{bed("a", 1, 10, 3.6, 1.2), bed("b", 6, 10.2, 3.6, 1.2)}, false, [][]string{{"b"}, {"a"}}},
		{"turned", []setout.Input{bed("a", 1, 10, 3.6, 1.2), turned}, false, [][]string{{"a"}, {"turned"}}},
		{"shed", []setout.Input{bed("a", 1, 10, 3.6, 1.2), bed("b", 12, 10, 3.6, 1.2)}, true, [][]string{{"a"}, {"b"}}},
		{"too long", []setout.Input{bed("a", 1, 10, 3.6, 1.2), bed("b", 30, 10, 3.6, 1.2)}, false, [][]string{{"a"}, {"b"}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			site := setout.Site{
				Beds: c.beds, Height: func(p orb.Point) float64 { return p[1] },
				Marks: []geodata.Fixture{mark("A", 0, 0), mark("B", 20, 0)},
			}
			if c.shed {
				site.InTheWay = []orb.Geometry{orb.LineString{{8, 5}, {8, 15}}}
			}
			var got [][]string
			for _, r := range setout.Make(site).Rows {
				var names []string
				for _, b := range r.Beds {
					names = append(names, b.Bed)
				}
				got = append(got, names)
			}
			assert.Equal(t, c.want, got)
		})
	}
}
