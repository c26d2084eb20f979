package plotfolder_test

import (
	"testing"

	"crossfall/geodata"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const tapedMarks = "kind,name,x,y\nmark,shed,0,0\nmark,gate,10,0\n"

// Two tapes of 8 and 6 m from marks 10 m apart meet at (6.4, 4.8); chainage 4,
// offset 3 to the left is (4, 3); bearing 90 from the shed, 2 m, is (2, 0) (worked
// by hand).
func TestTiesAndLevelsMakeHeights(t *testing.T) {
	p := plot(t, files{
		"features.csv": tapedMarks,
		"levels.csv":   "station,back,inter,fore,level\nBM,1.5,,,10\nP1,,1.2,,\nP2,,1.0,,\nP3,,0.8,,\nBM,,,1.501,\n",
		"ties.csv": "point,method,from,to,a,b,side\nP1,tie,shed,,8,,left\nP1,tie,gate,,6,,\n" +
			"P2,offset,shed,gate,4,3,\nP3,bearing,shed,,90,2,\n",
	})
	require.Len(t, p.Spots, 3)
	got := map[string]geodata.SpotHeight{}
	for _, s := range p.Spots {
		got[s.Name] = s
	}
	for name, want := range map[string][3]float64{"P1": {6.4, 4.8, 10.3}, "P2": {4, 3, 10.5}, "P3": {2, 0, 10.7}} {
		s := got[name]
		assert.InDeltaSlice(t, want[:], []float64{s.At[0], s.At[1], s.Height}, 2e-3, name)
		assert.Greater(t, s.Sigma, 0.010, name)
	}
}

// A string of water-tube readings needs no level book: each rise is the
// difference of the two readings.
func TestTiesAlone(t *testing.T) {
	p := plot(t, files{
		"features.csv": tapedMarks,
		"ties.csv": "point,method,from,to,a,b\nA,offset,shed,gate,1,1\nB,offset,shed,gate,9,1\nC,offset,shed,gate,5,7\n" +
			"B,water tube,A,,1.482,1.207\nC,water tube,A,,1.3,0.9\n",
	})
	require.Len(t, p.Spots, 3)
	h := map[string]float64{}
	for _, s := range p.Spots {
		h[s.Name] = s.Height
	}
	assert.InDelta(t, 0.275, h["B"]-h["A"], 1e-9)
	assert.InDelta(t, 0.400, h["C"]-h["A"], 1e-9)
}

func TestTiesToNoMarkAreFaults(t *testing.T) {
	fs := faults(t, files{"features.csv": tapedMarks, "heights.csv": "x,y,z\n0,0,1\n5,0,1\n0,5,1.2\n", "ties.csv": "point,method,from,a\nP1,bearing,barn,8\n"})
	require.NotEmpty(t, fs)
	assert.Equal(t, "ties.csv", fs[0].Pos.File)
	assert.NotZero(t, fs[0].Pos.Line)
}
