package plotfolder

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"crossfall/geodata"

	"github.com/stretchr/testify/require"
)

// soundMarks are two marks that strange ties can lean on.
const soundMarks = "kind,name,x,y\nmark,shed,0,0\nmark,gate,10,0\nboundary,p,-1,-1\nboundary,p,21,-1\nboundary,p,21,21\nboundary,p,-1,21\n"

// FuzzBooks reads a level book and ties beside sound heights and marks.
func FuzzBooks(f *testing.F) {
	const tieHeader = "point,kind,from,to,distance,offset,side\n"
	for _, s := range [][2]string{
		{"station,back,inter,fore,level\na,1.2,,,10\nb,,1.3,,\na,,,1.2,\n", tieHeader + "b,tie,shed,,8,,left\nb,tie,gate,,6\n"},
		{"point;back;fore;level\nP;1,2;;0\nQ;;1,1;\n", tieHeader + "Q,offset,shed,gate,8,3,right\n"},
		{"pt,BS (ft),FS\na,4' 6\",\n", "point,kind,from,to,distance\n,pace,,,75\n"},
	} {
		f.Add([]byte(s[0]), []byte(s[1]))
	}
	f.Fuzz(func(t *testing.T, levels, ties []byte) {
		marks := &file{name: featuresFile, data: []byte(soundMarks)}
		strange := &file{name: levelsFile, data: levels}
		fuzzed(t, strange, inputs{heights: soundTable(), features: marks, levels: strange})
		both := inputs{heights: soundTable(), features: marks, levels: strange, ties: &file{name: tiesFile, data: ties}}
		p, err := assemble(both, Options{MostBytes: geodata.MostFileBytes}, &collector{})
		require.Equal(t, err == nil, p != nil)
		alone := &file{name: tiesFile, data: ties}
		fuzzed(t, alone, inputs{features: marks, ties: alone})
	})
}

// FuzzAnyHeights gives the bytes to whichever reader takes them for its own.
func FuzzAnyHeights(f *testing.F) {
	for _, s := range []string{
		"0\nSECTION\n2\nENTITIES\n0\nPOINT\n8\nG\n10\n1\n20\n2\n30\n3\n0\nENDSEC\n0\nEOF\n",
		"<gpx version=\"1.1\"><wpt lat=\"50.7\" lon=\"-3.5\"><ele>27.9</ele></wpt></gpx>", "<kml><Point><coordinates>-3.5,50.7,27.9</coordinates></Point></kml>",
		"<LandXML><Units><Metric linearUnit=\"meter\"/></Units><CgPoints><CgPoint name=\"a\">1 2 3</CgPoint></CgPoints></LandXML>",
		"MULTIPOINT Z ((0 0 29), (20 0 29), (20 20 30))", "ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 10\n1 2\n3 4\n", "0 0 1\n1 0 1\n0 1 2\n1 1 2\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		for _, known := range formats() {
			if known.sniff(data) {
				strange := &file{name: "heights" + known.extensions[0], data: data, format: known}
				fuzzed(t, strange, inputs{heights: strange})
				fuzzed(t, strange, inputs{heights: strange, features: &file{name: featuresFile, data: []byte(soundMarks)}})
			}
		}
	})
}

// FuzzHillside joins a strange ground model to a sound plot.
func FuzzHillside(f *testing.F) {
	f.Add([]byte("ncols 3\nnrows 3\nxllcorner -10\nyllcorner -10\ncellsize 20\n28 29 30\n28 29 30\n28 29 30\n"))
	f.Add([]byte("0 0 1\n20 0 1\n0 20 2\n20 20 2\n"))
	path := filepath.Join(f.TempDir(), "hillside.asc")
	f.Fuzz(func(t *testing.T, data []byte) {
		require.NoError(t, os.WriteFile(path, data, 0o600))
		p, err := assemble(inputs{heights: soundTable(), features: &file{name: featuresFile, data: []byte(soundMarks)}, hillside: path}, Options{MostBytes: geodata.MostFileBytes}, &collector{})
		if err != nil {
			var fs geodata.Faults
			require.True(t, errors.As(err, &fs) && p == nil && fs.Problems() > 0)
			return
		}
		if h := p.Hillside; h != nil {
			require.Len(t, h.Z, h.Cols*h.Rows)
		}
	})
}

// FuzzAppend adds a reading to a strange file of heights: what stood there stays,
// and the new row reads back.
func FuzzAppend(f *testing.F) {
	for _, s := range []string{soundHeights, "x;y;z\n1,5;2;3", "z (ft)\ty\tx\tnote\n", "name,lon,lat,z\n", "\xef\xbb\xbfname,x,y,z\r\n\"a\n\",1,2,3\r\n", "x,y,z\n\"open,1,2\n"} {
		f.Add([]byte(s))
	}
	path := filepath.Join(f.TempDir(), "heights.csv")
	f.Fuzz(func(t *testing.T, data []byte) {
		require.NoError(t, os.WriteFile(path, data, 0o600))
		err := AppendHeight(path, geodata.Site{}, NewReading{Name: "new, one", X: 1.5, Y: -2.25, Z: 29.125, Note: "by \"hand\""})
		after, readErr := os.ReadFile(path)
		require.NoError(t, readErr)
		require.True(t, bytes.HasPrefix(after, data), "what stood there was changed")
		if err != nil {
			require.Equal(t, data, after)
		}
	})
}
