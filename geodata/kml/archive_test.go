package kml_test

import (
	"archive/zip"
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"crossfall/geodata/internal/faulttest"
	"crossfall/geodata/internal/realdata"
	"crossfall/geodata/kml"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// entry is one file of an archive.
type entry struct{ name, content string }

func archive(t require.TestingT, entries ...entry) []byte {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, e := range entries {
		w, err := z.Create(e.name)
		require.NoError(t, err)
		_, err = w.Write([]byte(e.content))
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return b.Bytes()
}

var point = placemark("<Point><altitudeMode>absolute</altitudeMode><coordinates>-3.5,50.7,27.9</coordinates></Point>")

func TestArchive(t *testing.T) {
	for _, c := range []struct {
		name  string
		data  []byte
		codes []string
	}{
		{"plain", archive(t, entry{"doc.kml", point}), []string{origin}},
		{"pictures first", archive(t, entry{"files/a.png", "x"}, entry{"__MACOSX/._doc.kml", "x"}, entry{"Doc.KML", point}), []string{origin}},
		{"two", archive(t, entry{"doc.kml", point}, entry{"more.kml", "<kml"}), []string{"warning kmz-more-kml", origin}},
		{"path out of the folder", archive(t, entry{"../../etc/doc.kml", point}), []string{origin}},
		{"no KML", archive(t, entry{"sheet.xml", "<a/>"}), []string{"problem kmz-without-kml"}},
		{"empty KML", archive(t, entry{"doc.kml", ""}), []string{"problem empty-file"}},
		{"cut", archive(t, entry{"doc.kml", point})[:60], []string{"problem kmz-broken"}},
		{"archive in an archive", archive(t, entry{"doc.kml", string(archive(t, entry{"doc.kml", point}))}), []string{"problem not-text"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.True(t, kml.Sniff(c.data))
			got, fs := kml.Read(c.data, "p.kmz", kml.Options{})
			assert.Equal(t, c.codes, faulttest.Codes(fs))
			if fs.Problems() == 0 {
				assert.Equal(t, []string{"a point -3.5 50.7 27.9"}, told(got))
			}
		})
	}
}

func TestDamagedEntry(t *testing.T) {
	data := archive(t, entry{"doc.kml", point})
	at := bytes.Index(data, []byte("doc.kml")) + 20
	data[at] ^= 0xff
	_, fs := kml.Read(data, "p.kmz", kml.Options{})
	assert.Equal(t, []string{"problem kmz-broken"}, faulttest.Codes(fs))
}

// An archive of a few kilobytes may unpack to gigabytes.
func TestBombIsRefused(t *testing.T) {
	bomb := archive(t, entry{"doc.kml", "<kml>" + strings.Repeat(" ", 4<<20) + "</kml>"})
	require.Less(t, len(bomb), 10_000)
	_, fs := kml.Read(bomb, "p.kmz", kml.Options{MostBytes: 1 << 20})
	assert.Equal(t, []string{"problem file-too-large"}, faulttest.Codes(fs))

	// The same with a directory that claims a small size.
	at := bytes.LastIndex(bomb, []byte("PK\x01\x02"))
	copy(bomb[at+24:], []byte{1, 0, 0, 0})
	_, fs = kml.Read(bomb, "p.kmz", kml.Options{MostBytes: 1 << 20})
	require.Equal(t, 1, fs.Problems())
}

func TestTooManyFiles(t *testing.T) {
	entries := make([]entry, 10_001)
	for i := range entries {
		entries[i] = entry{"a", ""}
	}
	_, fs := kml.Read(archive(t, entries...), "p.kmz", kml.Options{})
	assert.Equal(t, []string{"problem kmz-too-many-files"}, faulttest.Codes(fs))
}

// The public sample files that CROSSFALL_DATA names.
func TestSampleFiles(t *testing.T) {
	problem := map[string]string{
		"bad.kml": "not-a-number", "point_extra_coordinates.kml": "coordinates-ambiguous",
		"nogeomplacemark.kml": "no-points", "null_geometry.kml": "no-points", "selfclosing.kml": "no-points",
	}
	points := map[string]int{"point.kml": 1, "cdata.kml": 1, "linestring.kml": 4, "multigeometry.kml": 4, "twopoints.kml": 2, "polygon.kml": 8}
	files, err := filepath.Glob(realdata.Path(t, "formats", "vector", "*.kml"))
	require.NoError(t, err)
	require.Len(t, files, 16)
	for _, file := range files {
		name := filepath.Base(file)
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			got, fs := kml.Read(data, name, kml.Options{})
			if want := problem[name]; want != "" {
				require.Error(t, fs.Err())
				assert.Equal(t, want, fs[0].Code)
				return
			}
			require.NoError(t, fs.Err())
			require.NotEmpty(t, got.Points)
			if n, known := points[name]; known {
				assert.Len(t, got.Points, n)
			}
			if name == "gxmultitrack.kml" {
				assert.Equal(t, 791.5999755859375, got.Points[1].Height)
				assert.True(t, got.Points[1].HasHeight)
			}
		})
	}
}
