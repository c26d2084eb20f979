package siting_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/frame"
	"crossfall/siting/setout"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func setOutOf(t *testing.T, a *siting.Assessment, name string) setout.Bed {
	t.Helper()
	for _, b := range a.SettingOut.Beds {
		if b.Name == name {
			return b
		}
	}
	require.Fail(t, "not set out", name)
	return setout.Bed{}
}

// The pegs told along the boards are those of the bed: as many, and each of the
// uphill board half a peg outside its running distance.
func TestPegsAlongTheBoards(t *testing.T) {
	a := assess(t, read(t, "hillside-pinned"))
	boarded := 0
	for _, b := range a.Beds {
		if b.Build == nil || b.Pegs.Count == 0 {
			continue
		}
		boarded++
		s := setOutOf(t, a, b.Name)
		count := 0
		for _, o := range s.Boards {
			count += len(o.Pegs)
		}
		assert.Equal(t, b.Pegs.Count, count, b.Name)
		require.Len(t, s.Pegs, len(b.Pegs.Positions))
		left, right := s.Corners[0].At, s.Corners[1].At
		for i, x := range uphillPegs(s) {
			along := orb.Point{left[0] + (right[0]-left[0])*x/b.Length, left[1] + (right[1]-left[1])*x/b.Length}
			assert.InDelta(t, b.Pegs.Size/2000, planar.Distance(along, b.Pegs.Positions[i]), 1e-6, "%s, peg %d", b.Name, i+1)
			assert.Equal(t, b.Pegs.Positions[i], s.Pegs[i].At)
		}
	}
	assert.GreaterOrEqual(t, boarded, 3)
}

// uphillPegs are those of the uphill board, whatever its steps.
func uphillPegs(s setout.Bed) []float64 {
	var out []float64
	for _, o := range s.Boards {
		if o.Side == "on its uphill side" {
			out = append(out, o.Pegs...)
		}
	}
	return out
}

// On a plane that falls to the south by 8 in 100, under a bed along the contour,
// the uphill board's top stands its height as bought, less what is let in, over
// the ground, the same at both ends; the downhill board's is lower by the fall of
// the ground across 1.2 m, 96 mm, and higher by what it is higher.
func TestBoardTopsOnAPlane(t *testing.T) {
	p := plane(0.08, 0.005)
	p.Fixtures = []geodata.Fixture{rectangleBed("bed", 4, 5, 7.6, 6.2)}
	a := assess(t, p)
	b, s := a.Beds[0], setOutOf(t, a, "bed")
	require.Positive(t, b.Build.BoardUphill, "the bed has boards")
	d := a.SettingOut.Datum
	assert.InDelta(t, b.Build.BoardUphill-b.SunkenDepth.Value, d.AboveGround, .5)
	assert.GreaterOrEqual(t, d.AboveGround, b.Build.Fill+25-.5, "25 mm of board stand over the compost")
	tops := map[string][2]float64{}
	for _, o := range s.Boards {
		tops[o.Name] = o.Tops
	}
	assert.InDelta(t, 0, tops["uphill board"][0], 1e-6)
	assert.InDelta(t, 0, tops["uphill board"][1], .5)
	down := -96 + b.Build.BoardDownhill - b.Build.BoardUphill
	assert.InDelta(t, down, tops["downhill board"][0], .5)
	assert.InDelta(t, down, tops["left end board"][1], .5)
	assert.InDelta(t, 0, tops["right end board"][0], .5)
	assert.InDelta(t, math.Hypot(s.Diagonal, down/1000), s.OnFrame[0], 1e-6)
}

// Without marks canes are proposed at what stays: in the plot, clear of the beds
// and of the cable, with every row fixed from them.
func TestCanesWhereThereAreNoMarks(t *testing.T) {
	p := read(t, "hillside-pinned")
	var kept []geodata.Fixture
	var cable orb.LineString
	for _, f := range p.Fixtures {
		if f.Kind != geodata.MarkKind {
			kept = append(kept, f)
		}
		if f.Name == "power to shed" {
			cable = f.Shape.(orb.LineString)
		}
	}
	p.Fixtures = kept
	a := assess(t, p)
	s := a.SettingOut
	require.GreaterOrEqual(t, len(s.Marks), 2)
	for _, m := range s.Marks {
		assert.True(t, m.Proposed)
		assert.NotEmpty(t, m.Where)
		assert.Greater(t, planar.DistanceFrom(cable, m.At), .6, m.Name)
		for _, b := range a.Beds {
			for _, c := range b.Corners {
				assert.Greater(t, math.Hypot(c[0]-m.At[0], c[1]-m.At[1]), .3, "%s by %s", m.Name, b.Name)
			}
		}
	}
	for _, r := range s.Rows {
		for _, e := range r.Ends {
			assert.Len(t, e.Ties, 2, "%s, %s", r.Name, e.Name)
		}
	}
	assert.Contains(t, s.Left, "by the cable")
	assert.Contains(t, s.Note, "Set canes as further marks")
}

// Every figure of the sheet can be asked for its working.
func TestWorkingOfTheSettingOut(t *testing.T) {
	a := assess(t, read(t, "hillside-pinned"))
	ids := map[string]siting.Basis{}
	for _, b := range a.Working {
		_, twice := ids[b.ID]
		assert.False(t, twice, b.ID)
		ids[b.ID] = b
	}
	for _, id := range []string{
		"setting-out.row-1.left-end", "setting-out.row-1.right-end", "setting-out.row-1.string", "setting-out.datum-peg",
		"lower-slope.diagonal", "lower-slope.top.uphill-board", "lower-slope.top.left-end-board",
	} {
		assert.Contains(t, ids, id)
	}
	assert.InDelta(t, a.SettingOut.Rows[0].Ends[0].Error.Value, ids["setting-out.row-1.left-end"].Value, 1e-12)
}

// An end board is as high as the downhill board, and its top keeps to those of
// the long boards. Left straight, its foot would lie deeper at the uphill end by
// what the ground rises there more than the top does: the heights of the corners
// and of the sheet tell how much, and the note must say so.
func TestFeetOfEndBoardsAreToFollowTheGround(t *testing.T) {
	a := assess(t, read(t, "hillside"))
	noted := 0
	for _, b := range a.Beds {
		require.Equal(t, frame.SunkenEdges, b.Edge)
		end, up, down := "left end board", b.Corners[0], b.Corners[3]
		if b.LowEnd == "right" {
			end, up, down = "right end board", b.Corners[1], b.Corners[2]
		}
		boards := setOutOf(t, a, b.Name).Boards
		i := slices.IndexFunc(boards, func(o setout.Board) bool { return o.Name == end })
		require.GreaterOrEqual(t, i, 0)
		deeper := 1000*(up[2]-down[2]) - (boards[i].Tops[0] - boards[i].Tops[1])
		notes := strings.Join(b.Build.Notes, "\n")
		if deeper < 5 {
			assert.NotContains(t, notes, "end boards follow the ground", b.Name)
			continue
		}
		noted++
		assert.Contains(t, notes, fmt.Sprintf("end boards follow the ground: left straight, it would be %.0f mm deeper at their uphill end", deeper), b.Name)
	}
	assert.Equal(t, 2, noted)
}
