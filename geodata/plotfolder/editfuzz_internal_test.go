package plotfolder

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"crossfall/geodata"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// A stranger's file is changed as asked, or refused with faults: the program does
// not stop, and nothing else in the file is touched.

func FuzzEditSite(f *testing.F) {
	for _, text := range []string{
		"", "# a\nname = 'x'\n[beds]\n# count = 4 # b\nwidth_m = 1.2\n", "beds = { count = 4, width_m = 1 }", "beds.count = 4\r\n[ 'boards' ]\r\nlengths_m = [\n 3.6, # s\n]",
		"[[acknowledged]]\ncaution=\"\"\"\na\"\"\"\n[acknowledged.beds]\ncount = 3", "[beds", "a = [[", "beds = {\n# r\n}\n",
	} {
		f.Add(text, uint8(0))
	}
	set := []Setting{
		{"beds.count", 7}, {"beds.count", nil}, {"name", "a \"b\" # c"}, {"boards.lengths_m", []float64{2.4, 3}},
		{"ground.test_pit.minutes", 9.5}, {"services.gas", "drawn"}, {"beds", nil},
	}
	f.Fuzz(func(t *testing.T, text string, which uint8) {
		one := set[int(which)%len(set)]
		s := siteChange{name: siteFile, data: []byte(text)}
		value, err := s.valueText(one)
		require.NoError(t, err)
		data, err := s.set(s.data, one, value)
		if err == nil {
			err = s.onlyChanged(data, []Setting{one})
		}
		if err != nil {
			var told geodata.Faults
			require.True(t, errors.As(err, &told), "%v", err)
			return
		}
		got := values(data)
		if got == nil { // such as a table that is said twice: readSite tells
			return
		}
		if one.Value != nil { // what is taken out may be what was wrong
			require.NotNil(t, values(s.data), "a text that was no TOML is one now: %q", data)
		}
		require.Equal(t, one.Value != nil, got[one.Key] != nil)
		again, err := s.set(data, one, value)
		require.NoError(t, err)
		require.Equal(t, string(data), string(again), "the same once more changes nothing")
	})
}

func FuzzEditDrawing(f *testing.F) {
	for _, text := range []string{
		`{"type":"FeatureCollection","features":[]}`, `{"features": [ {"type":"Feature","properties":{"kind":"tree","name":"a","x":[1,{"y":"}"}]},"geometry":null, "bbox":[1]} , 5, {}],"type":"FeatureCollection"}`,
		`{"type":"Feature","properties":{"name":"a","kind":"TREE"},"geometry":{"type":"Point","coordinates":[1,2]}}`, `{"type":"FeatureCollection","features":[{"properties":{"kind":"tree","name":"b"}},{"properties":{"kind":"tree","name":"a"}}]}`,
		"[]", "{", "", "\"features\"",
	} {
		f.Add(text, true)
		f.Add(text, false)
	}
	f.Fuzz(func(t *testing.T, text string, put bool) {
		d := &desk{site: geodata.Site{Coordinates: coordinatesLocal}, json: &openText{name: geoJSONFile, was: []byte(text), text: text}}
		e := FeatureEdit{Kind: geodata.TreeKind, Name: "a"}
		if put {
			e.Put = &geodata.Fixture{Shape: orb.Point{3, 4}, TopHeight: 2}
		}
		count, err := d.countInJSON(e)
		if err == nil {
			err = d.edit(e)
		}
		if err != nil {
			var told geodata.Faults
			require.True(t, errors.As(err, &told), "%v", err)
			require.Equal(t, text, d.json.text)
			return
		}
		require.True(t, d.json.empty || json.Valid([]byte(d.json.text)), "%q", d.json.text)
		now, err := d.countInJSON(e)
		require.NoError(t, err)
		if put {
			require.Equal(t, 1, now)
		} else {
			require.Equal(t, count-1, now)
		}
	})
}

func FuzzEditTable(f *testing.F) {
	for _, text := range []string{
		"", "# a", "kind,name,x,y\ntree,a,1,2\ntree,b,1,2", "x;y;kind;name\r\n1,5;2;tree;a\r\n\r\n;;;\r\n", "kind\tname\tx\ty\ttree\ta\t1\t2\r", "kind,name,x,y,height (ft),\n\"tree\",\"a\",1,2,\"\",",
		"kind name x y\ntree a 1 2\n", "kind,x,y\ntree,1,2\n", "kind,name,lon,lat\n",
	} {
		f.Add(text, true)
		f.Add(text, false)
	}
	f.Fuzz(func(t *testing.T, text string, put bool) {
		d := &desk{table: &openText{name: featuresFile, was: []byte(text), text: text}}
		e := FeatureEdit{Kind: geodata.TreeKind, Name: "a"}
		if put {
			e.Put = &geodata.Fixture{Shape: orb.Point{3, 4}, TopHeight: 2}
		}
		if err := d.edit(e); err != nil {
			var told geodata.Faults
			require.True(t, errors.As(err, &told), "%v", err)
			return
		}
		for _, line := range linesWithEnds(text) { // remarks are kept
			if strings.HasPrefix(strings.TrimSpace(line), "#") {
				require.Contains(t, d.table.text, strings.TrimSpace(line))
			}
		}
		var c collector
		checkDrawn(inputs{features: &file{name: featuresFile, data: d.table.bytes()}}, &c)
		if c.problems > 0 { // it is not put in place
			return
		}
		now, err := d.countInTable(e)
		require.NoError(t, err)
		require.Equal(t, put, now == 1)
	})
}
