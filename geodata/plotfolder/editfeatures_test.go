package plotfolder_test

import (
	"encoding/json"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func apple(x, y float64) plotfolder.FeatureEdit {
	return plotfolder.FeatureEdit{Kind: geodata.TreeKind, Name: "apple", Put: &geodata.Fixture{Shape: orb.Point{x, y}, TopHeight: 3.5, Evergreen: true}}
}

func hedge(name string) plotfolder.FeatureEdit {
	return plotfolder.FeatureEdit{Kind: geodata.ObstacleKind, Name: name, Put: &geodata.Fixture{Shape: orb.LineString{{0, 1}, {10, 1}}, What: "hedge"}}
}

func without(kind geodata.Kind, name string) plotfolder.FeatureEdit {
	return plotfolder.FeatureEdit{Kind: kind, Name: name}
}

// changedFeatures is a file of a folder after some changes.
func changedFeatures(t *testing.T, fs files, name string, edits ...plotfolder.FeatureEdit) string {
	t.Helper()
	dir := folder(t, fs)
	require.NoError(t, plotfolder.EditFeatures(dir, fingerprint(t, dir), edits))
	return content(t, filepath.Join(dir, name))
}

func TestEditFeaturesInATable(t *testing.T) {
	for _, c := range []struct {
		name, before string
		edit         plotfolder.FeatureEdit
		after        string
	}{
		{"in its place",
			"# drawn\nkind,name,x,y,height_m,evergreen,note\ntree,apple,1,2,3,,old\n# the pear\ntree,pear,5,5,4,no,kept\n", apple(2, 3),
			"# drawn\nkind,name,x,y,height_m,evergreen,note\ntree,apple,2,3,3.5,true,\n# the pear\ntree,pear,5,5,4,no,kept\n"},
		{"at the end", "kind,name,x,y,height_m,evergreen\ntree,pear,5,5,4,no", apple(2, 3), "kind,name,x,y,height_m,evergreen\ntree,pear,5,5,4,no\ntree,apple,2,3,3.5,true\n"},
		{"columns that are missing",
			"kind,name,x,y\ntree,pear,5,5\n# a remark\n", apple(2, 3),
			"kind,name,x,y,height_m,evergreen\ntree,pear,5,5,,\n# a remark\ntree,apple,2,3,3.5,true\n"},
		{"behind empty ones and over rows of any length",
			"kind,name,x,y,,note,\npath,p,0,0,,,\npath,p,0,5\ntree,pear,5,5,,\"a, b\"\n", apple(2, 3),
			"kind,name,x,y,,note,,height_m,evergreen\npath,p,0,0,,,,,\npath,p,0,5,,,,,\ntree,pear,5,5,,\"a, b\",,,\ntree,apple,2,3,,,,3.5,true\n"},
		{"units, decimal commas, line ends",
			"name;kind;y (ft);x (ft);height (cm);evergreen\r\npear;tree;5,5;5;400;no\r\n", apple(3.048, 0.3048),
			"name;kind;y (ft);x (ft);height (cm);evergreen\r\npear;tree;5,5;5;400;no\r\napple;tree;1;10;350;true\r\n"},
		{"old line ends", "kind,name,x,y,what\rtree,pear,5,5,\rpath,p,0,0,\rpath,p,0,5,\r", hedge("h"), "kind,name,x,y,what\rtree,pear,5,5,\rpath,p,0,0,\rpath,p,0,5,\robstacle,h,0,1,hedge\robstacle,h,10,1,\r"},
		{"no names yet", "x\ty\tkind\n5\t5\ttree\n", hedge("h"), "x\ty\tkind\tname\twhat\n5\t5\ttree\t\t\n0\t1\tobstacle\th\thedge\n10\t1\tobstacle\th\t\n"},
		{"taken out", "kind,name,x,y\npath,p,0,0\n# on the way\npath,p,0,5\ntree,pear,5,5\n", without(geodata.PathKind, "p"), "kind,name,x,y\n# on the way\ntree,pear,5,5\n"},
		{"the last one", "kind,name,x,y\ntree,pear,5,5\n", without(geodata.TreeKind, "pear"), "kind,name,x,y\n"},
		{"one without a name", "kind,name,x,y\ntree,,5,5\ntree,pear,6,6\n", without(geodata.TreeKind, ""), "kind,name,x,y\ntree,pear,6,6\n"},
		{"a wider line, a name with a comma", "kind,name,x,y,what\nobstacle,\"h, south\",0,0,hedge\nobstacle,\"h, south\",9,0,\n", hedge("h, south"), "kind,name,x,y,what\nobstacle,\"h, south\",0,1,hedge\nobstacle,\"h, south\",10,1,\n"},
		{"the boundary keeps its name", "kind,name,x,y\nboundary,field,0,0\nboundary,field,20,0\nboundary,field,20,20\ntree,a,1,1\n",
			plotfolder.FeatureEdit{Kind: geodata.BoundaryKind, Boundary: []orb.Point{{0, 0}, {21, 0}, {21, 21}, {0, 0}}},
			"kind,name,x,y\nboundary,field,0,0\nboundary,field,21,0\nboundary,field,21,21\ntree,a,1,1\n"},
		{"the boundary under another name", "kind,name,x,y\nboundary,field,0,0\nboundary,field,20,0\nboundary,field,20,20\n",
			plotfolder.FeatureEdit{Kind: geodata.BoundaryKind, Name: "plot", Boundary: []orb.Point{{0, 0}, {21, 0}, {21, 21}}},
			"kind,name,x,y\nboundary,plot,0,0\nboundary,plot,21,0\nboundary,plot,21,21\n"},
		{"another name", "kind,name,x,y\nmark,a,1,1\nmark,b,9,1\n",
			plotfolder.FeatureEdit{Kind: geodata.MarkKind, Name: "a", Put: &geodata.Fixture{Name: "post", Shape: orb.Point{1, 1}}}, "kind,name,x,y\nmark,post,1,1\nmark,b,9,1\n"},
		{"a line that comes back is an area", "kind,name,x,y,what\n",
			plotfolder.FeatureEdit{Kind: geodata.ObstacleKind, Name: "w", Put: &geodata.Fixture{What: "wall", Shape: orb.Polygon{{{0, 0}, {1, 0}, {1, 1}, {0, 0}}}}},
			"kind,name,x,y,what\nobstacle,w,0,0,wall\nobstacle,w,1,0,\nobstacle,w,1,1,\nobstacle,w,0,0,\n"},
		{"heights of the ground", "kind,name,x (ft),y (ft)\n",
			plotfolder.FeatureEdit{Kind: geodata.BreakLineKind, Name: "top", Put: &geodata.Fixture{Shape: orb.LineString{{0, 0}, {3.048, 0}}, Heights: []float64{3.048, nan()}}},
			"kind,name,x (ft),y (ft),z\nbreak-line,top,0,0,10\nbreak-line,top,10,0,\n"},
		{"remarks alone", "# nothing drawn", hedge("h"), "# nothing drawn\nkind,name,x (m),y (m),what,height_m,stem_diameter_m,evergreen,carries,overhead,located,depth_m\nobstacle,h,0,1,hedge,,,,,,,\nobstacle,h,10,1,,,,,,,,\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.after, changedFeatures(t, files{"heights.csv": sound, "features.csv": c.before}, "features.csv", c.edit))
		})
	}
}

func nan() float64 { return math.NaN() }

func TestEditFeaturesMakesTheFile(t *testing.T) {
	const tail = ",what,height_m,stem_diameter_m,evergreen,carries,overhead,located,depth_m\n"
	assert.Equal(t, "kind,name,x (m),y (m)"+tail+"tree,apple,1,2,,3.5,,true,,,,\n", changedFeatures(t, files{"heights.csv": sound}, "features.csv", apple(1, 2)))
	assert.Equal(t, "kind,name,x (ft),y (ft)"+tail+"tree,apple,10,20,,3.5,,true,,,,\n", changedFeatures(t, files{"site.toml": "units = \"ft\"\n"}, "features.csv", apple(3.048, 6.096)))
	// The heights are in degrees: the origin is the middle of their extent.
	degrees := "name,lon,lat,z\na,-3.0001,50.7,1\nb,-2.9999,50.7,1\nc,-3,50.7002,2\n"
	assert.Equal(t, "kind,name,longitude,latitude"+tail+"tree,apple,-3,50.7001,,3.5,,true,,,,\n", changedFeatures(t, files{"heights.csv": degrees}, "features.csv", apple(0, 0)))
}

const drawnPlan = `{
  "type": "FeatureCollection", "name": "plan", "generator": {"by": "hand"},
  "features": [
    {"type": "Feature", "id": 7, "bbox": [0, 0, 1, 1], "properties": {"name": "apple", "kind": "tree", "height (ft)": 10, "stem_diameter_m": 0.2, "planted": 1990, "note": "old"},
      "geometry": {"type": "Point", "coordinates": [1, 2]}, "style": {"fill": "#0f0"}},
    {"type": "Feature", "properties": {"kind": "path", "name": 5}, "geometry": {"type": "LineString", "coordinates": [[0, 0], [5, 5]]}}
  ],
  "last": true
}
`

func TestEditFeaturesInGeoJSON(t *testing.T) {
	local := files{"heights.csv": sound, "site.toml": "coordinates = \"local\"\n", "plot.geojson": drawnPlan}
	after := changedFeatures(t, local, "plot.geojson", apple(2, 3))
	assert.Contains(t, after, `{"type": "Feature", "id": 7, "properties": {"name": "apple", "kind": "tree", "planted": 1990, "note": "old", "height_m": 3.5, "evergreen": true}, "geometry": {"type": "Point", "coordinates": [2, 3]}, "style": {"fill": "#0f0"}}`)
	assert.True(t, strings.HasPrefix(after, "{\n  \"type\": \"FeatureCollection\", \"name\": \"plan\", \"generator\": {\"by\": \"hand\"},\n"))
	assert.True(t, strings.HasSuffix(after, ",\n    {\"type\": \"Feature\", \"properties\": {\"kind\": \"path\", \"name\": 5}, \"geometry\": {\"type\": \"LineString\", \"coordinates\": [[0, 0], [5, 5]]}}\n  ],\n  \"last\": true\n}\n"), after)

	after = changedFeatures(t, local, "plot.geojson", hedge("h"))
	assert.Equal(t, strings.Replace(drawnPlan, "}}\n  ],", "}},\n    {\"type\": \"Feature\", \"properties\": {\"kind\": \"obstacle\", \"name\": \"h\", \"what\": \"hedge\"}, \"geometry\": {\"type\": \"LineString\", \"coordinates\": [[0, 1], [10, 1]]}}\n  ],", 1), after)

	after = changedFeatures(t, local, "plot.geojson", without(geodata.PathKind, "5"))
	assert.True(t, strings.HasSuffix(after, "\"style\": {\"fill\": \"#0f0\"}}\n  ],\n  \"last\": true\n}\n"), after)
	after = changedFeatures(t, local, "plot.geojson", without(geodata.TreeKind, "apple"))
	assert.Contains(t, after, "\"features\": [\n    {\"type\": \"Feature\", \"properties\": {\"kind\": \"path\"")

	both := files{"heights.csv": sound, "site.toml": "coordinates = \"local\"\n", "plot.geojson": drawnPlan, "features.csv": "kind,name,x,y,what,height_m,evergreen\n"}
	assert.Contains(t, changedFeatures(t, both, "plot.geojson", apple(2, 3), hedge("h")), "[2, 3]", "where it stands")
	assert.Contains(t, changedFeatures(t, both, "features.csv", apple(2, 3), hedge("h")), "obstacle,h,0,1,hedge,,\n", "a new one goes into the table")
}

func TestEditFeaturesTakesAnEmptyFileAway(t *testing.T) {
	dir := folder(t, files{"heights.csv": sound, "site.toml": "coordinates = \"local\"\n", "plot.geojson": drawnPlan})
	require.NoError(t, plotfolder.EditFeatures(dir, fingerprint(t, dir), []plotfolder.FeatureEdit{without(geodata.PathKind, "5"), without(geodata.TreeKind, "apple")}))
	assert.Equal(t, []string{"heights.csv", "plot.geojson.before", "site.toml"}, names(t, dir))
	assert.Equal(t, drawnPlan, content(t, filepath.Join(dir, "plot.geojson.before")))
	after := changedFeatures(t, files{"site.toml": "coordinates = \"local\"\n", "plot.geojson": drawnPlan}, "plot.geojson",
		without(geodata.PathKind, "5"), without(geodata.TreeKind, "apple"), hedge("h"))
	assert.True(t, json.Valid([]byte(after)))
	assert.Contains(t, after, `"name": "h"`)
	lone := files{"site.toml": "coordinates = \"local\"\n", "plot.geojson": `{"type": "Feature", "properties": {"kind": "mark", "name": "a"}, "geometry": {"type": "Point", "coordinates": [1, 2]}}`}
	assert.Equal(t, `{"type": "Feature", "properties": {"kind": "mark", "name": "a"}, "geometry": {"type": "Point", "coordinates": [3, 4]}}`,
		changedFeatures(t, lone, "plot.geojson", plotfolder.FeatureEdit{Kind: geodata.MarkKind, Name: "a", Put: &geodata.Fixture{Shape: orb.Point{3, 4}}}))
}

func TestEditFeaturesRefusesAndWritesNothing(t *testing.T) {
	table := "kind,name,x,y,what\nmark,a,1,1,\nmark,b,9,1,\ntree,t,2,2,\ntree,t,3,3,\nno-go,n,4,4,\nno-go,n,5,4,\nno-go,n,5,5,\n"
	put := func(kind geodata.Kind, name string, shape orb.Geometry) plotfolder.FeatureEdit {
		return plotfolder.FeatureEdit{Kind: kind, Name: name, Put: &geodata.Fixture{Shape: shape}}
	}
	bowTie := orb.Polygon{{{0, 0}, {2, 2}, {2, 0}, {0, 2}, {0, 0}}}
	for name, c := range map[string]struct {
		fs   files
		edit plotfolder.FeatureEdit
		said string
	}{
		"not there":             {files{"features.csv": table}, without(geodata.MarkKind, "c"), "there is no such feature"},
		"two of a name":         {files{"features.csv": table}, without(geodata.TreeKind, "t"), "there are 2 of this kind and name"},
		"no such kind":          {files{"features.csv": table}, without("pond", "t"), "not a kind of feature"},
		"no name":               {files{"features.csv": table}, put(geodata.TreeKind, "", orb.Point{1, 1}), "has no name"},
		"a name that is":        {files{"features.csv": table}, plotfolder.FeatureEdit{Kind: geodata.MarkKind, Name: "a", Put: &geodata.Fixture{Name: "b", Shape: orb.Point{1, 1}}}, "of this kind and name already"},
		"crosses itself":        {files{"features.csv": table}, put(geodata.NoGoKind, "n", bowTie), "features.csv:8: the no-go"},
		"crosses itself too":    {files{"site.toml": "coordinates = \"local\"\n", "plot.geojson": drawnPlan}, put(geodata.NoGoKind, "n", bowTie), "crosses"},
		"a bed that is none":    {files{"features.csv": table}, put(geodata.BedKind, "n", orb.Polygon{{{0, 0}, {3, 0}, {1, 1}, {0, 1}, {0, 0}}}), "is not a rectangle"},
		"one point":             {files{"features.csv": table}, put(geodata.PathKind, "p", orb.LineString{{0, 0}}), "two points or more"},
		"no point":              {files{"features.csv": table}, put(geodata.PathKind, "p", orb.LineString{}), "no corners"},
		"no shape":              {files{"features.csv": table}, put(geodata.PathKind, "p", nil), "neither a point, a line nor an area"},
		"a hole":                {files{"features.csv": table}, put(geodata.NoGoKind, "h", orb.Polygon{{{0, 0}, {9, 0}, {9, 9}, {0, 0}}, {{5, 1}, {6, 1}, {6, 2}, {5, 1}}}), "cannot hold an area with a hole"},
		"far away":              {files{"features.csv": table}, put(geodata.TreeKind, "far", orb.Point{9000, 0}), "over 2000 m"},
		"away from heights":     {files{"heights.csv": sound, "features.csv": table}, plotfolder.FeatureEdit{Kind: geodata.BoundaryKind, Boundary: []orb.Point{{100, 100}, {120, 100}, {120, 120}}}, "do not overlap"},
		"out of its range":      {files{"features.csv": table}, plotfolder.FeatureEdit{Kind: geodata.TreeKind, Name: "x", Put: &geodata.Fixture{Shape: orb.Point{1, 1}, TopHeight: 200}}, "out of its range"},
		"blanks between":        {files{"features.csv": "kind name x y\ntree t 1 1\n"}, hedge("h"), "none can be added between blanks"},
		"another fault":         {files{"features.csv": table + "pond,p,1,1\n"}, hedge("h"), "features.csv:9:1"},
		"no header":             {files{"features.csv": "tree,t,1,1\n"}, hedge("h"), "there is no header row"},
		"not UTF-8":             {files{"features.csv": "kind,name,x,y\ntree,t\xe9,1,1\n"}, hedge("h"), "save it as UTF-8 first"},
		"not JSON":              {files{"plot.geojson": "{"}, hedge("h"), "not valid JSON"},
		"a lone feature":        {files{"plot.geojson": `{"type": "Feature", "properties": {"kind": "mark", "name": "a"}, "geometry": {"type": "Point", "coordinates": [1, 2]}}`}, hedge("h"), "make it a FeatureCollection"},
		"heights in part":       {files{"site.toml": "coordinates = \"local\"\n", "plot.geojson": drawnPlan}, plotfolder.FeatureEdit{Kind: geodata.BreakLineKind, Name: "b", Put: &geodata.Fixture{Shape: orb.LineString{{0, 0}, {1, 1}}, Heights: []float64{1, nan()}}}, "some have none"},
		"nothing to count from": {files{"heights.csv": "name,lon,lat,z\n"}, hedge("h"), "no place is known yet"},
		"no degrees beside":     {files{"heights.csv": sound, "features.csv": "kind,name,lon,lat,what\n"}, hedge("h"), "no place is known yet"},
		"a boundary's ring":     {files{"features.csv": table}, put(geodata.BoundaryKind, "b", orb.Point{}), "corners alone"},
		"a ring that is none":   {files{"features.csv": table}, plotfolder.FeatureEdit{Kind: geodata.PathKind, Name: "p", Boundary: []orb.Point{{0, 0}}}, "corners alone"},
	} {
		dir := folder(t, c.fs)
		err := plotfolder.EditFeatures(dir, fingerprint(t, dir), []plotfolder.FeatureEdit{c.edit})
		var told geodata.Faults
		require.True(t, errors.As(err, &told), "%s: %v", name, err)
		assert.ErrorContains(t, err, c.said, name)
		for file, text := range c.fs {
			assert.Equal(t, text, content(t, filepath.Join(dir, file)), name)
		}
		assert.Len(t, names(t, dir), len(c.fs), name)
	}
}

// A fault that was in another file before is no reason to refuse a change.
func TestEditFeaturesPassesOverFaultsElsewhere(t *testing.T) {
	dir := folder(t, files{"site.toml": "[beds]\ncount = 400\n", "heights.csv": "name,x,y,z\na,0,0,high\n"})
	require.NoError(t, plotfolder.EditFeatures(dir, fingerprint(t, dir), []plotfolder.FeatureEdit{hedge("h")}))
	assert.FileExists(t, filepath.Join(dir, "features.csv"))
}

func TestTwoWritersOfFeatures(t *testing.T) {
	for range 10 {
		dir := folder(t, files{"heights.csv": sound, "features.csv": "kind,name,x,y,what\n"})
		seen := fingerprint(t, dir)
		var all sync.WaitGroup
		errs := make([]error, 3)
		for i := range errs {
			all.Go(func() {
				errs[i] = plotfolder.EditFeatures(dir, seen, []plotfolder.FeatureEdit{hedge("h" + string(rune('a'+i)))})
			})
		}
		all.Wait()
		written := 0
		for i, err := range errs {
			if err == nil {
				written++
				p, err := plotfolder.Read(dir, plotfolder.Options{})
				require.NoError(t, err)
				require.Len(t, p.Fixtures, 1)
				assert.Equal(t, "h"+string(rune('a'+i)), p.Fixtures[0].Name)
				continue
			}
			assert.ErrorIs(t, err, plotfolder.ErrChanged)
		}
		assert.Equal(t, 1, written)
	}
}

func TestEditFeaturesLeavesLinksAlone(t *testing.T) {
	away := folder(t, files{"real.csv": "kind,name,x,y,what\n"})
	dir := folder(t, files{"heights.csv": sound})
	require.NoError(t, os.Symlink(filepath.Join(away, "real.csv"), filepath.Join(dir, "features.csv")))
	assert.ErrorIs(t, plotfolder.EditFeatures(dir, fingerprint(t, dir), []plotfolder.FeatureEdit{hedge("h")}), plotfolder.ErrLink)
	assert.Equal(t, "kind,name,x,y,what\n", content(t, filepath.Join(away, "real.csv")))
}
