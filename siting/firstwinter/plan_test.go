package firstwinter_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"crossfall/geodata"
	"crossfall/siting/firstwinter"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func weed(t require.TestingT, name string) firstwinter.Weed {
	w, ok := firstwinter.Named(name)
	require.True(t, ok, name)
	return w
}

// two beds: one let in under a channel, one open.
func two() firstwinter.Input {
	rise := 0.10
	return firstwinter.Input{
		Latitude: at(51), Turf: true, Barrow: 15, Litres: 45, Load: geodata.Exactly(27),
		Beds: []firstwinter.Bed{
			{Name: "Bed 1", Boards: true, Sunken: true, Pegs: true, Channel: true, Volume: 0.63, Way: &rise},
			{Name: "Bed 2", Exposed: true, Volume: 0.675},
		},
	}
}

// find is the step whose words begin so.
func find(t *testing.T, p firstwinter.Plan, what string) firstwinter.Step {
	t.Helper()
	i := slices.IndexFunc(p.Steps, func(s firstwinter.Step) bool { return strings.HasPrefix(s.What, what) })
	require.GreaterOrEqual(t, i, 0, what)
	return p.Steps[i]
}

func TestOrderInTheNorth(t *testing.T) {
	p := firstwinter.Make(two())
	edges := find(t, p, "let the edges in")
	assert.Equal(t, []time.Month{time.July, time.August}, []time.Month{edges.First, edges.Last})
	assert.Equal(t, []string{"Bed 1"}, edges.Beds)
	assert.Equal(t, 1, edges.Year)
	fill := find(t, p, "lay cardboard")
	assert.Equal(t, time.September, fill.Last)
	assert.Contains(t, fill.Why, "29 loads")
	assert.Empty(t, fill.Beds, "both")
	clear := find(t, p, "before the first storm")
	assert.Equal(t, time.October, clear.First)
	assert.Equal(t, []string{"Bed 1"}, clear.Beds)
	pegs := find(t, p, "drive every peg again")
	assert.Equal(t, time.April, pegs.First)
	assert.Equal(t, 2, pegs.Year)
	lifted := find(t, p, "lift the cover")
	assert.Equal(t, []string{"Bed 2"}, lifted.Beds)
	assert.Equal(t, time.April, lifted.First)
	assert.Equal(t, 2, lifted.Year)
}

// South of the equator every month of it is six later.
func TestOrderMirrors(t *testing.T) {
	north, south := two(), two()
	south.Latitude = at(-51)
	n, s := firstwinter.Make(north), firstwinter.Make(south)
	require.Len(t, s.Steps, len(n.Steps))
	for i := range n.Steps {
		assert.Equal(t, n.Steps[i].What, s.Steps[i].What)
		assert.Equal(t, (int(n.Steps[i].First)+5)%12+1, int(s.Steps[i].First), n.Steps[i].What)
	}
}

// Bindweed laid dark in September may be looked at 24 months later; creeping
// buttercup's 6 months end in March, when nothing grows yet: April.
func TestCoversAgainstWeeds(t *testing.T) {
	in := two()
	in.Weeds = []firstwinter.Weed{weed(t, "creeping buttercup")}
	p := firstwinter.Make(in)
	months := in.Weeds[0].Months
	assert.Equal(t, firstwinter.Cover{Bed: "Bed 1", Cardboard: 1, Layers: 2, Months: &months, LiftMonth: time.April, LiftYear: 2,
		Against: []string{"creeping buttercup"}}, p.Covers[0])

	in.Weeds = append(in.Weeds, weed(t, "bindweed"), weed(t, "knotweed"))
	p = firstwinter.Make(in)
	for _, c := range p.Covers {
		assert.Equal(t, []int{2, 4, 24}, []int{c.Cardboard, c.Layers, int(c.Months.Value)}, c.Bed)
		assert.Equal(t, time.September, c.LiftMonth)
		assert.Equal(t, 3, c.LiftYear)
		assert.Equal(t, []string{"creeping buttercup", "field bindweed"}, c.Against)
	}
	left := find(t, p, "leave Japanese knotweed alone")
	assert.Contains(t, left.Why, "licensed")
	assert.Equal(t, p.Steps[0].Year, left.Year)
	assert.Nil(t, p.Weeds[2].Months)
	assert.Contains(t, find(t, p, "cover with 4 layers").Why, "let through 0.81 %")
	lifts := 0
	for _, s := range p.Steps {
		if strings.HasPrefix(s.What, "lift the cover") {
			lifts++
			assert.Equal(t, []string{"Bed 1", "Bed 2"}, s.Beds)
		}
	}
	assert.Equal(t, 1, lifts)
}

// Worked by hand from m g (sin a + mu cos a), a = atan 0.10, at 70 and 100 N (Health and
// Safety Executive, INDG143) with 15 kg of barrow: mu 0.10 on a lawn, 0.15 on wet, soft
// ground (common practice, no source).
func TestWetLoads(t *testing.T) {
	p := firstwinter.Make(two())
	require.Len(t, p.Wet, 1, "no way is known to Bed 2")
	w := p.Wet[0]
	assert.InDelta(t, 35.9-15, w.Dry.Low, 0.06)
	assert.InDelta(t, 51.2-15, w.Dry.High, 0.06)
	// 70 / (9.81 (0.0995037 + 0.15 x 0.9950372)) = 28.69
	assert.InDelta(t, 28.69-15, w.Wet.Low, 0.01)
	// 100 / (9.81 (0.0995037 + 0.15 x 0.9950372)) = 40.98
	assert.InDelta(t, 40.98-15, w.Wet.High, 0.01)

	steep := two()
	rise := 0.16
	steep.Beds[0].Way = &rise
	assert.Contains(t, firstwinter.Make(steep).Wet[0].Said, "no barrow")
	heavy := two()
	heavy.Barrow = 60
	assert.Contains(t, firstwinter.Make(heavy).Wet[0].Said, "empty barrow")
}

func TestNothingToBuild(t *testing.T) {
	p := firstwinter.Make(firstwinter.Input{Latitude: at(51), Weeds: []firstwinter.Weed{weed(t, "dock")}})
	assert.Empty(t, p.Steps)
	assert.NotNil(t, p.Steps)
	assert.Len(t, p.Weeds, 1)
}

// Whatever the place and its rain: steps stand in order until the covers come off,
// all is built before the season begins, and no cover comes off early.
func TestOrderHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := two()
		in.Latitude = at(rapid.Float64Range(-66, 66).Draw(t, "latitude"))
		if rapid.Bool().Draw(t, "rain") {
			in.Monthly = rapid.SliceOfN(rapid.Float64Range(0, 300), 12, 12).Draw(t, "monthly")
		}
		for _, name := range rapid.SliceOfDistinct(rapid.SampledFrom(firstwinter.Names()), rapid.ID).Draw(t, "weeds") {
			in.Weeds = append(in.Weeds, weed(t, name))
		}
		p := firstwinter.Make(in)
		count := func(year int, m time.Month) int { return 12*year + int(m) }
		begins := count(p.Steps[0].Year, p.Steps[0].First) + 5
		assert.Equal(t, int(p.Season.First), (begins-1)%12+1)
		last := 0
		for _, s := range p.Steps {
			if strings.HasPrefix(s.What, "lift") {
				continue
			}
			now := count(s.Year, s.First)
			if s.What != "" && !strings.HasPrefix(s.What, "look at") && !strings.HasPrefix(s.What, "after heavy") && !strings.HasPrefix(s.What, "leave ") {
				assert.GreaterOrEqual(t, now, last, s.What)
				last = now
			}
			if strings.HasPrefix(s.What, "let the edges") || strings.HasPrefix(s.What, "lay card") {
				assert.Less(t, now+1, begins, "done a month before the season")
			}
		}
		for _, c := range p.Covers {
			if c.Layers == 0 {
				assert.Zero(t, c.LiftMonth)
				continue
			}
			under := count(c.LiftYear, c.LiftMonth) - (begins - 1)
			assert.GreaterOrEqual(t, float64(under), c.Months.Value)
			assert.Less(t, float64(under), c.Months.Value+7, "at most a dormant half-year more")
		}
	})
}

func ExampleMake() {
	twitch, _ := firstwinter.Named("twitch")
	latitude := -37.0
	p := firstwinter.Make(firstwinter.Input{
		Latitude: &latitude, Litres: 45, Weeds: []firstwinter.Weed{twitch},
		Beds: []firstwinter.Bed{{Name: "Bed 1", Boards: true, Pegs: true, Volume: 0.675}},
	})
	for _, s := range p.Steps {
		if strings.Contains(s.What, "boards and drive") || strings.HasPrefix(s.What, "lift") {
			fmt.Printf("year %d, %s: %s\n", s.Year, firstwinter.Months(s.First, s.Last), s.What)
		}
	}
	// Output:
	// year 2, January to February: set the boards and drive the pegs
	// year 3, March: lift the cover, on a dull day
}

// Who has no boards is not told to look at boards.
func TestOpenBedsAloneHaveNoBoardsToLookAt(t *testing.T) {
	in := two()
	assert.Contains(t, find(t, firstwinter.Make(in), "after heavy rain look").What, "pegs that lean")
	in.Beds = in.Beds[1:]
	for _, s := range firstwinter.Make(in).Steps {
		assert.NotContains(t, s.What, "pegs that lean")
		assert.NotContains(t, s.What, "under a board")
	}
}

// A weed met in one bed is covered there and nowhere else: bindweed asks for four
// layers (0.30^4 = 0.8 %, at most 2 %) and two sheets; dock, met all over, for three
// (0.30^3 = 2.7 %, at most 5 %) and one.
func TestWeedsOfOneBed(t *testing.T) {
	in := two()
	in.Weeds = []firstwinter.Weed{weed(t, "dock")}
	in.Beds[1].Weeds = []firstwinter.Weed{weed(t, "bindweed")}
	p := firstwinter.Make(in)
	sheets, layers := p.Layers("Bed 1")
	assert.Equal(t, []int{1, 3}, []int{sheets, layers})
	sheets, layers = p.Layers("Bed 2")
	assert.Equal(t, []int{2, 4}, []int{sheets, layers})
	assert.Equal(t, []string{"broad-leaved dock"}, p.Covers[0].Against)
	assert.Equal(t, []string{"broad-leaved dock", "field bindweed"}, p.Covers[1].Against)
	require.Len(t, p.Weeds, 2)
	assert.Empty(t, p.Weeds[0].Beds, "all over")
	assert.Equal(t, []string{"Bed 2"}, p.Weeds[1].Beds)
	assert.Empty(t, find(t, p, "broad-leaved dock: ").Beds)
	assert.Equal(t, []string{"Bed 2"}, find(t, p, "field bindweed: ").Beds)
	assert.Contains(t, find(t, p, "lay cardboard").What, "1 to 2 sheets thick, as each bed asks")
	assert.Equal(t, []string{"Bed 1"}, find(t, p, "cover with 3 layers").Beds)
	assert.Equal(t, []string{"Bed 2"}, find(t, p, "cover with 4 layers").Beds)
}
