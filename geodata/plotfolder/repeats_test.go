package plotfolder_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	"crossfall/geodata"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRepeatedReadings(t *testing.T) {
	const more = "b,20,0,29\nc,20,20,30\nd,0,20,30\n"
	p := plot(t, files{"heights.csv": "name,x,y,z,note\na2,0.004,0,29.020,dry\n" + more + "a1,0,0,29.000,\n"})
	got := p.Spots[1] // in order of x
	assert.Equal(t, "a1 and a2", got.Name)
	assert.Equal(t, 2, got.Readings)
	assert.InDelta(t, 29.010, got.Height, 1e-12)
	assert.InDelta(t, 0.002, got.At[0], 1e-12)
	assert.InDelta(t, 0.012/1.4142135623730951, got.Sigma, 1e-12, "two readings of 12 mm")
	assert.Equal(t, "dry", got.Note)
	note := find(t, p.Notes, "reading-averaged")
	assert.Equal(t, "2 readings of one place (lines 2, 6) were averaged: 29.010 m, one standard deviation 8 mm", note.Message)
	assert.Equal(t, geodata.Pos{File: "heights.csv", Line: 2}, note.Pos)

	// weights 1/5² and 1/10²: (29*4 + 29.02) / 5 = 29.004, sd = sqrt(1/(1/25+1/100)) = 4.472 mm
	p = plot(t, files{"heights.csv": "name,x,y,z,precision (mm)\na,0,0,29.000,5\na,0,0,29.020,10\nb,20,0,29,\nc,20,20,30,\n"})
	assert.InDelta(t, 29.004, p.Spots[0].Height, 1e-12)
	assert.InDelta(t, 0.00447213595, p.Spots[0].Sigma, 1e-9)

	far := "name,x,y,z\na1,0,0,29.000\n" + more + "a2,0,0.003,29.060\n" // limit 3 * 12 mm * sqrt 2 = 50.9 mm
	fs := faults(t, files{"heights.csv": far})
	assert.Equal(t, []string{"readings-disagree at heights.csv:2: a1: 29.000 m", "readings-disagree at heights.csv:6: a2: 29.060 m"}, short(fs))
	assert.Equal(t, "a2 in line 6 is at the same place and 60 mm away in height, over 51 mm that readings may differ", fs[0].Message)
	assert.Contains(t, fs[0].Want, "top")
	p = plot(t, files{"heights.csv": far, "site.toml": "[ground]\nreading_precision_mm = 20\n"})
	assert.Equal(t, 2, p.Spots[0].Readings, "the precision of site.toml allows 85 mm")
}

func TestTopAndToeOfOnePlace(t *testing.T) {
	const more = "b,20,0,29,\nc,20,20,30,\nd,0,20,30,\n"
	for name, rows := range map[string]string{
		"by column": "name,x,y,z,side\na,0,0,29,toe\na,0,0,30.2,TOP\n" + more,
		"by note":   "name,x,y,z,note\na,0,0,29,Toe of wall\na,0,0,30.2,\"top, by the steps\"\n" + more,
	} {
		t.Run(name, func(t *testing.T) {
			p := plot(t, files{"heights.csv": rows})
			require.Len(t, p.Spots, 5)
			assert.Equal(t, geodata.Toe, p.Spots[0].Side)
			assert.Equal(t, 29.0, p.Spots[0].Height)
			assert.Equal(t, geodata.Top, p.Spots[1].Side)
			assert.Equal(t, 1, p.Spots[1].Readings)
		})
	}
	p := plot(t, files{"heights.csv": "name,x,y,z,note\na,0,0,29,topsoil\ne,9,9,29,toenail\n" + more})
	assert.Equal(t, geodata.NoSide, p.Spots[0].Side, "the word, not its beginning")
	fs := faults(t, files{"heights.csv": "name,x,y,z,side\na,0,0,29,top\na,0,0,30.2,\n" + more})
	assert.Len(t, short(fs), 2, "one tag alone is not enough")
	fs = faults(t, files{"heights.csv": "name,x,y,z,side\na,0,0,29,top\na,0,0,30.2,top\na,0,0,28,toe\n" + more})
	assert.Len(t, short(fs), 2, "two tops must agree")
}

func TestRowsInAnyOrderGiveTheSamePlot(t *testing.T) {
	rows := []string{"a,0,0,29,", "b,20,0,29,", "c,20,20,30,", "d,0,20,30,", "e,10,10,29.51,top", "e,10.006,10,29.49,top", "f,10.003,10.004,28.2,toe", "g,5,5,29.3,", "h,5,5,29.31,"}
	want := plot(t, files{"heights.csv": "name,x,y,z,side\n" + strings.Join(rows, "\n")})
	r := rand.New(rand.NewPCG(1, 2))
	for range 20 {
		r.Shuffle(len(rows), func(i, j int) { rows[i], rows[j] = rows[j], rows[i] })
		got := plot(t, files{"heights.csv": "name,x,y,z,side\n" + strings.Join(rows, "\n")})
		for i := range got.Spots {
			got.Spots[i].Source = want.Spots[i].Source
		}
		require.Equal(t, want.Spots, got.Spots, "to the last bit")
		require.Equal(t, want.Boundary, got.Boundary)
	}
}

func TestManyReadingsOfOnePlaceAreQuick(t *testing.T) {
	text := "name,x,y,z\nb,20,0,29\nc,20,20,30\n" + strings.Repeat("a,0,0,29\n", 3000)
	assert.Equal(t, 3000, plot(t, files{"heights.csv": text}).Spots[0].Readings)
}
