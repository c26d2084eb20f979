package words_test

import (
	"math"
	"strings"
	"testing"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/sitingtest"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
)

func TestEstimatesCarryUnitAndBand(t *testing.T) {
	m := words.Words{Units: "m"}
	for _, tt := range []struct{ want, got string }{
		{"9.1 % (8.4 to 9.8)", m.Percent(geodata.Estimate{Value: 9.1, Low: 8.4, High: 9.8})},
		{"0.0 %", m.Percent(geodata.Exactly(math.Copysign(0, -1)))},
		{"0.0 % (0.0 to 0.4)", m.Percent(geodata.Estimate{Value: -.01, Low: 0, High: .4})},
		{"not known", m.Percent(geodata.Exactly(math.NaN()))},
		{"184 mm (172 to 197)", m.SmallBand(geodata.Estimate{Value: 184, Low: 172, High: 197})},
		{"184 mm", m.SmallBand(geodata.Estimate{Value: 184, Low: 183.9, High: 184.2})},
		{"0.062 litres a second (0.031 to 0.19)", m.Flow(geodata.Estimate{Value: .062, Low: .031, High: .19})},
		{"120 newtons (95 to 160)", m.Push(geodata.Estimate{Value: 118, Low: 95, High: 160})},
	} {
		assert.Equal(t, tt.want, tt.got)
	}
}

// One litre a second is 60 / 28.316846592 cubic feet a minute; 118 N is 26.53
// pounds of force (foot and pound by international agreement, 1959).
func TestFlowAndPushInFeetAndPounds(t *testing.T) {
	ft := words.Words{Units: "ft"}
	assert.Equal(t, "2.1 cubic feet a minute", ft.Flow(geodata.Exactly(1)))
	assert.Equal(t, "27 pounds of force", ft.Push(geodata.Exactly(118)))
}

func TestProseTurnsFiguresOnly(t *testing.T) {
	ft := words.Words{Units: "ft"}
	for _, tt := range []struct{ in, want string }{
		{"within 0.6096 m of the pipe", "within " + ft.Units.Length(.6096) + " of the pipe"},
		{"from 25.4 to 50.8 mm", "from " + ft.Small(25.4) + " to " + ft.Small(50.8)},
		{"1 in 11 and 9.1 % at 142°", "1 in 11 and 9.1 % at 142°"},
		{"h14 m, width_m = 2", "h14 m, width_m = 2"},
		{"0.4 m/s", "0.4 m/s"},
		{"carries 118 newtons", "carries 27 pounds of force"},
		{"600 kg/m3", "37 pounds a cubic foot"},
	} {
		assert.Equal(t, tt.want, ft.Prose(tt.in))
		assert.Equal(t, tt.in, words.Words{Units: "m"}.Prose(tt.in))
	}
}

// By the international foot and pound (1959): 18 mm are 0.709 in and 1026 mm
// 40.39 in; 45 litres 1.59 cubic feet; 3 litres a second 6.36 cubic feet a
// minute, 1.4 and 5.6 are 2.97 and 11.9; 600 kg/m³ 37.5 pounds a cubic foot; 73.4
// newtons 16.50 and 70 newtons 15.74 pounds of force; a tonne a hectare 2.048 lb
// on 100 square feet; 10 kPa 208.9 pounds of force a square foot; 23 kg 50.7 lb.
func TestProseKnowsRainWaterAndLoads(t *testing.T) {
	ft := words.Words{Units: "ft"}
	for _, tt := range []struct{ in, want string }{
		{"18.0 mm in 60 minutes once in 5 years", "0.71 in in 60 minutes once in 5 years"},
		{"from 1026 mm of rain in a year", "from 40.39 in of rain in a year"},
		{"lie between 357 and 891 mm if they vary", "lie between 14.06 and 35.08 in if they vary"},
		{"with 45 litres of the fill", "with 1.6 cubic feet of the fill"},
		{"loads of 28 litres", "loads of 0.99 cubic feet"},
		{"carries the 3 litres a second (1.4 to 5.6) of 11 minutes", "carries the 6.4 cubic feet a minute (3 to 12) of 11 minutes"},
		{"0.47 litres of water a second run on", "1 cubic foot of water a minute run on"},
		{"taken as 600 kg/m³ as carried", "taken as 37 pounds a cubic foot as carried"},
		{"about 73.4 newtons, 70 newtons for women", "about 16.5 pounds of force, 15.7 pounds of force for women"},
		{"loses about 25 tonnes a hectare a year (6.2 to 98): much", "loses about 51 lb on 100 square ft a year (13 to 200): much"},
		{"no more than 23 to 40 kg of compost", "no more than 51 to 88 lb of compost"},
		{"0.3 to 1.4 tonnes a hectare in Europe", "0.61 to 2.9 lb on 100 square ft in Europe"},
		{"10 to 20 kPa", "210 to 420 pounds of force a square foot"},
		{"a board 225 mm (200 to 250) high", "a board 8 7/8 in (7 7/8 to 9 7/8) high"},
	} {
		assert.Equal(t, tt.want, ft.Prose(tt.in))
		assert.Equal(t, tt.in, words.Words{Units: "m"}.Prose(tt.in))
	}
}

// The working speaks in the units asked for throughout: 0.472 litres a second are
// 1.00 cubic feet a minute, 15 kPa 313 pounds of force a square foot, 210 N 47.2
// pounds of force, 1.47 Pa 3.07 lb on 100 square feet, 3.02 mm 0.119 in.
func TestWorkingInFeetLeavesNothingInMetres(t *testing.T) {
	ft := words.Words{Units: "ft"}
	for _, tt := range []struct {
		id    string
		value float64
		unit  string
		want  string
	}{
		{"bed-1.sheet-depth", 3.02, "mm", "0.12 in"},
		{"bed-1.pegs.embedment", 220, "mm", "8 5/8 in"},
		{"water.storm-10.depth", 13.5, "mm", "0.53 in"},
		{"run-on", .472, "L/s", "1 cubic foot a minute"},
		{"strength", 15, "kPa", "310 pounds of force a square foot"},
		{"strength of boards", 4, "N/mm²", "580 pounds of force a square inch"},
		{"load", 210, "N", "47 pounds of force"},
		{"bed-1.storm-10.pull", 1.47, "Pa", "3.1 lb on 100 square ft"},
		{"one load", 45, "litres", "1.6 cubic feet"},
		{"peg", 50, "mm square", "2 in square"},
		{"bed-1.compost-at-risk", .02, "kg", "under 0.1 lb"},
		{"water.yearly-soil-loss.bare", 25, "t/ha", "51 lb on 100 square ft"},
	} {
		assert.Equal(t, tt.want, ft.Figure(tt.id, tt.value, tt.unit), tt.id)
	}
}

func TestWorkingHasTwoFiguresForLossAndThreeElsewhere(t *testing.T) {
	m := words.Words{Units: "m"}
	assert.Equal(t, "1400 kg", m.Figure("bed-1.compost-loss", 1362, "kg"))
	assert.Equal(t, "1360 kg", m.Figure("mass", 1362, "kg"))
	assert.Equal(t, "0.0911", m.Figure("ground.fall", .09114, ""))
	assert.Equal(t, "0", m.Figure("x", math.Copysign(0, -1), ""))
	assert.Equal(t, "1.2e-09 m", m.Figure("x.loss", 1.2e-9, "m"))
}

func TestBearing(t *testing.T) {
	m := words.Words{Units: "m"}
	v, low, high := 359.7, 350.2, 9.4
	assert.Equal(t, "north, 0° (350° to 9°)", m.Bearing(siting.Interval{Value: &v, Low: &low, High: &high}))
	assert.Equal(t, "the fall is too small", m.Bearing(siting.Interval{Reason: "the fall is too small"}))
	assert.Equal(t, "cannot tell", m.Bearing(siting.Interval{}))
}

func TestFrameSaysWhatWasRead(t *testing.T) {
	m := words.Words{Units: "m"}
	f := siting.Frame{Coordinates: "longitude and latitude", North: "true north", Width: 18, Depth: 12, Area: 207.5, Origin: &orb.Point{-4.1234567, 50.7}}
	assert.Regexp(t, `^Read as longitude and latitude: 18\.00? m wide .*, 12\.00? m deep .* no boundary was drawn; bearings from true north\.$`, m.Frame(f))
	assert.Equal(t, "Origin: longitude -4.123457°, latitude 50.700000°.", m.AxisSaid(f))
	f = siting.Frame{Coordinates: "local metres", Width: 0.3048 * 64, Depth: 0.3048 * 56}
	assert.Regexp(t, `^Read as local metres: 19\.51 m wide`, m.Frame(f))
	assert.Regexp(t, `^Read as local coordinates: 64 ft wide`, words.Words{Units: "ft"}.Frame(f))
}

// Of several things to do the first is told with the bed that it is for.
func TestWhatToDoFirstNamesItsBed(t *testing.T) {
	a := sitingtest.Sloping()
	a.Water.Advice = []siting.Advice{{What: "a cut-off channel is wanted, and none can be given yet", Bed: "low bed"}, {What: "sow grass"}}
	said := strings.Join(words.Words{Units: "m"}.WaterShort(a), " ")
	assert.Contains(t, said, "To do first, low bed: a cut-off channel is wanted")
	a.Water.Advice = a.Water.Advice[1:]
	assert.Contains(t, strings.Join(words.Words{Units: "m"}.WaterShort(a), " "), "To do first, the plot: sow grass.")
}

func TestStopsComeFirst(t *testing.T) {
	cs := words.Words{Units: "m"}.Cautions(sitingtest.Sloping())
	assert.Equal(t, []string{"STOP", "WARNING", "NOTE"}, []string{cs[0].Mark, cs[1].Mark, cs[2].Mark})
}

func TestNoPegsUnderAStop(t *testing.T) {
	a := sitingtest.Sloping()
	b := a.Beds[0]
	b.Build = nil
	w := words.Words{Units: "m"}
	assert.Empty(t, w.BuildList(b))
	assert.Empty(t, w.PegPlaces(b))
	assert.Equal(t, []string{"Bed 1", "boarded; stopped, see cautions", "yes", "9.1 % (8.4 to 9.8)", "none", "none", "none"}, w.BedRow(b))
}

func TestWholeKeepsFiguresTogether(t *testing.T) {
	n := words.NoBreak
	assert.Equal(t, "6, 50"+n+"mm square", words.Whole("6, 50 mm square"))
	assert.Equal(t, "11"+n+"ft"+n+"9"+n+"3/4"+n+"in by", words.Whole("11 ft 9 3/4 in by"))
}

// A bed whose fall is told is decided at that fall; only one whose fall cannot
// be told is decided at the upper limit, and the reader must know which.
func TestNotFirmSaysWhatDecided(t *testing.T) {
	a := &siting.Assessment{Beds: []siting.Bed{
		{Name: "north", FallTold: true},
		{Name: "east"},
		{Name: "south", FallTold: true, EdgeFirm: true},
	}}
	said := words.Words{Units: "m"}.Decision(a)
	assert.Contains(t, said, "Not firm, decided at the unfavourable limit: east. "+
		"Not firm, decided at the fall as measured, whose band reaches another edge: north.")
}

// 150 mm is 5.906 in and 300 mm 11.811 in (the inch is 25.4 mm by
// international agreement, 1959): to the eighth, a distance to be kept is 6 in
// and a depth not to be passed 11 3/4 in.
func TestCarefulNeverRoundsTowardsHarm(t *testing.T) {
	ft := words.Words{Units: "ft"}
	assert.Equal(t, "stay 6 in or more away", ft.Careful("stay 150 mm or more away"))
	assert.Equal(t, "go no deeper than 11 3/4 in here", ft.Careful("go no deeper than 300 mm here"))
	assert.Equal(t, "no deeper than 300 mm", words.Words{Units: "m"}.Careful("no deeper than 300 mm"))
}
