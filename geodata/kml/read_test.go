package kml_test

import (
	"fmt"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/internal/faulttest"
	"crossfall/geodata/kml"

	"github.com/stretchr/testify/assert"
)

// told lists points as name kind lon lat and height or none.
func told(ps geodata.RawPoints) (out []string) {
	for _, p := range ps.Points {
		height := "none"
		if p.HasHeight {
			height = fmt.Sprint(p.Height)
		}
		out = append(out, fmt.Sprintf("%s %s %g %g %s", p.Name, p.Kind, p.X, p.Y, height))
	}
	return out
}

func read(data string) (geodata.RawPoints, geodata.Faults) {
	return kml.Read([]byte(data), "p.kml", kml.Options{})
}

func placemark(inside string) string {
	return `<kml xmlns="http://www.opengis.net/kml/2.2"><Placemark><name>a</name>` + inside + `</Placemark></kml>`
}

const origin = "note kml-heights-origin"

func TestAltitudes(t *testing.T) {
	for _, c := range []struct {
		name, shape, want string
		codes             []string
	}{
		{"absolute", `<Point><altitudeMode>absolute</altitudeMode><coordinates>-3.5,50.7,27.9</coordinates></Point>`, "27.9", []string{origin}},
		{"mode behind", `<Point><coordinates>-3.5,50.7,27.9</coordinates><altitudeMode>absolute</altitudeMode></Point>`, "27.9", []string{origin}},
		{"absolute zero is real", `<Point><altitudeMode>absolute</altitudeMode><coordinates>-3.5,50.7,0</coordinates></Point>`, "0", []string{origin}},
		{"none", `<Point><coordinates>-3.5,50.7</coordinates></Point>`, "none", nil},
		{"zero on the ground", `<Point><coordinates>-3.5,50.7,0</coordinates></Point>`, "none", nil},
		{"zero said to be on the ground", `<Point><altitudeMode>clampToGround</altitudeMode><coordinates>-3.5,50.7,0.0</coordinates></Point>`, "none", nil},
		{"height on the ground", `<Point><coordinates>-3.5,50.7,27.9</coordinates></Point>`, "27.9", []string{origin, "warning kml-altitude-on-ground:1:90"}},
		{"above the ground", `<Point><altitudeMode>relativeToGround</altitudeMode><coordinates>-3.5,50.7,2</coordinates></Point>`, "none", []string{"warning kml-altitude-above-ground:1:135"}},
		{"sea floor", `<Point><gx:altitudeMode>relativeToSeaFloor</gx:altitudeMode><coordinates>-3.5,50.7,2</coordinates></Point>`, "none", []string{"warning kml-altitude-above-ground:1:143"}},
		{"unknown mode", `<Point><altitudeMode>floating</altitudeMode><coordinates>-3.5,50.7,0</coordinates></Point>`, "none", []string{"warning kml-altitude-mode-unknown:1:91"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, fs := read(placemark(c.shape))
			assert.Equal(t, c.codes, faulttest.Codes(fs))
			assert.Equal(t, []string{"a point -3.5 50.7 " + c.want}, told(got))
		})
	}
}

func TestShapes(t *testing.T) {
	data := `<?xml version="1.0"?>
<k:kml xmlns:k="http://www.opengis.net/kml/2.2" xmlns:gx="g"><k:Document><k:name>doc</k:name><k:Folder><k:name>folder</k:name>
<k:Placemark><k:name>group</k:name><k:MultiGeometry>
 <k:Point><k:altitudeMode>absolute</k:altitudeMode><k:coordinates>
   1.5,2.5,3
 </k:coordinates></k:Point>
 <k:MultiGeometry><k:LineString><k:coordinates>1.25,2.5 1.5,2.75</k:coordinates></k:LineString></k:MultiGeometry>
</k:MultiGeometry></k:Placemark>
<k:Placemark><k:Polygon><k:altitudeMode>absolute</k:altitudeMode>
 <k:outerBoundaryIs><k:LinearRing><k:coordinates><![CDATA[0.5,0.5,1 1.5,0.5,2 1.5,1.5,3 0.5,0.5,1]]></k:coordinates></k:LinearRing></k:outerBoundaryIs>
</k:Polygon></k:Placemark>
<k:Placemark><k:name>walk</k:name><gx:MultiTrack><k:altitudeMode>absolute</k:altitudeMode><gx:Track>
 <k:when>2014</k:when><gx:coord>-71.5 -40.5 791.5</gx:coord><gx:coord>-71.5 -40.25 0</gx:coord>
</gx:Track></gx:MultiTrack></k:Placemark>
<k:Placemark><k:name>no shape</k:name></k:Placemark>
<k:Placemark><k:LineString><k:coordinates/></k:LineString></k:Placemark>
</k:Folder></k:Document></k:kml>`
	got, fs := read(data)
	assert.Equal(t, []string{origin}, faulttest.Codes(fs))
	assert.Equal(t, []string{
		"group point 1.5 2.5 3", "group line 1.25 2.5 none", "group line 1.5 2.75 none",
		" ring 0.5 0.5 1", " ring 1.5 0.5 2", " ring 1.5 1.5 3",
		"walk track -71.5 -40.5 791.5", "walk track -71.5 -40.25 0",
	}, told(got))
	assert.Equal(t, geodata.Pos{File: "p.kml", Line: 5, Col: 4}, got.Points[0].Source)
	assert.Equal(t, geodata.Pos{File: "p.kml", Line: 10, Col: 69}, got.Points[4].Source)
	assert.True(t, got.Geographic)
}

// Separators that leave open which number belongs to which place.
func TestAmbiguousSeparatorsAreRefused(t *testing.T) {
	for name, text := range map[string]string{
		"commas between places":    "-3.5,50.7,1,-3.6,50.8,2",
		"four numbers":             "-3.5,50.7,0,20",
		"leading comma":            ",-3.5,50.7,0",
		"trailing comma":           "-3.5,50.7,0,",
		"blank after comma":        "-3.5, 50.7, 0",
		"blanks instead of commas": "-3.5 50.7 0",
		"two commas":               "-3.5,,50.7",
	} {
		got, fs := read(placemark("<LineString><coordinates>" + text + "</coordinates></LineString>"))
		assert.Equal(t, []string{"problem coordinates-ambiguous:1:95"}, faulttest.Codes(fs), name)
		assert.NotEmpty(t, fs[0].Want)
		assert.Empty(t, got.Points)
	}
	for _, text := range []string{"1,2,3", "1", "1 2 3 4"} {
		_, fs := read(placemark("<gx:Track><gx:coord>" + text + "</gx:coord></gx:Track>"))
		assert.Equal(t, []string{"problem coordinates-ambiguous:1:90"}, faulttest.Codes(fs), text)
	}
	_, fs := read(placemark("<Point><coordinates>-3.5,50.7 -3.6,50.8</coordinates></Point>"))
	assert.Equal(t, []string{"problem coordinates-ambiguous:1:100"}, faulttest.Codes(fs))
}

func TestFaults(t *testing.T) {
	for _, c := range []struct {
		name, data string
		codes      []string
	}{
		{"all at once", placemark("<LineString><coordinates>\nno,no,0\n1.5,95 -181.5,2.5\n1.5,2.5,nan</coordinates></LineString>"), []string{
			"problem not-a-number:2:1", "problem not-degrees:3:1", "problem not-degrees:3:8", "problem not-a-number:4:1",
		}},
		{"projected", placemark("<Point><coordinates>294163.9,90002.1</coordinates></Point>"), []string{"problem not-degrees:1:90"}},
		{"nothing", placemark(""), []string{"problem no-points"}},
		{"another format", "<gpx/>", []string{"problem not-kml:1:1"}},
		{"cut", "<kml><Placemark><Point><coordinates>1,2", []string{"problem not-xml:1:40"}},
		{"deep", "<kml>" + strings.Repeat("<Folder>", 300), []string{"problem nested-too-deeply:1:798"}},
	} {
		got, fs := read(c.data)
		assert.Equal(t, c.codes, faulttest.Codes(fs), c.name)
		assert.Empty(t, got.Points)
	}
}

// -3,5 50,7 with decimal commas reads as two places in whole degrees.
func TestWholeDegreesAreDoubted(t *testing.T) {
	got, fs := read(placemark("<LineString><coordinates>-3,5 50,7</coordinates></LineString>"))
	assert.Equal(t, []string{"warning kml-whole-degrees:1:95"}, faulttest.Codes(fs))
	assert.Len(t, got.Points, 2)
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(placemark("<Point><coordinates>1.5,2.5,3</coordinates></Point>")))
	f.Add([]byte(placemark("<Polygon><LinearRing><coordinates>1.5,2.5,3 1.5,2.5,3</coordinates></LinearRing></Polygon>")))
	f.Add([]byte("<kml><gx:Track><gx:coord>1 2 3</gx:coord></gx:Track></kml>"))
	f.Add(archive(f, entry{"doc.kml", placemark("<Point><coordinates>1.5,2.5,3</coordinates></Point>")}))
	f.Add([]byte("PK\x03\x04"))
	f.Fuzz(func(t *testing.T, data []byte) {
		kml.Sniff(data)
		got, fs := kml.Read(data, "f.kml", kml.Options{MostBytes: 1 << 20})
		if len(got.Points) == 0 == (fs.Problems() == 0) {
			t.Fatalf("%d points and %d problems", len(got.Points), fs.Problems())
		}
	})
}

func ExampleRead() {
	file := `<kml xmlns="http://www.opengis.net/kml/2.2"><Placemark><name>f3</name>
<Point><altitudeMode>absolute</altitudeMode><coordinates>-3.50031,50.70012,27.9</coordinates></Point>
</Placemark></kml>`
	points, faults := kml.Read([]byte(file), "spots.kml", kml.Options{})
	if err := faults.Err(); err != nil {
		fmt.Println(err)
		return
	}
	p := points.Points[0]
	fmt.Println(p.Name, p.X, p.Y, p.Height, p.Source)

	_, faults = kml.Read([]byte(`<kml><Placemark><Point><coordinates>-3.5, 50.7, 27.9</coordinates></Point></Placemark></kml>`), "typed.kml", kml.Options{})
	fmt.Println(faults[0].Code)
	// Output:
	// f3 -3.50031 50.70012 27.9 spots.kml:2:58
	// coordinates-ambiguous
}
