package landxml_test

import (
	"fmt"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/internal/faulttest"
	"crossfall/geodata/landxml"

	"github.com/stretchr/testify/assert"
)

func told(ps geodata.RawPoints) (out []string) {
	for _, p := range ps.Points {
		height := "none"
		if p.HasHeight {
			height = fmt.Sprintf("%.6g", p.Height)
		}
		out = append(out, fmt.Sprintf("%s %s east %.9g north %.9g %s", p.Name, p.Kind, p.X, p.Y, height))
	}
	return out
}

const metric = `<Units><Metric linearUnit="meter" areaUnit="squareMeter"/></Units>`

func file(inside string) string {
	return "<LandXML version=\"1.2\" xmlns=\"http://www.landxml.org/schema/LandXML-1.2\">\n" + inside + "</LandXML>"
}

func read(inside string, opt landxml.Options) (geodata.RawPoints, geodata.Faults) {
	return landxml.Read([]byte(file(inside)), "s.xml", opt)
}

// The northing comes first in the file, and X is the easting.
func TestNorthingComesFirst(t *testing.T) {
	got, fs := read(metric+`<CoordinateSystem epsgCode="27700"/><CgPoints>
<CgPoint name="f3">313177.270 651409.903 24.700</CgPoint><CgPoint name="g">313100 651400</CgPoint>
</CgPoints>`, landxml.Options{})
	assert.Empty(t, fs)
	assert.Equal(t, []string{
		"f3 survey point east 651409.903 north 313177.27 24.7",
		"g survey point east 651400 north 313100 none",
	}, told(got))
	assert.Equal(t, 27700, got.EPSG)
	assert.False(t, got.Geographic)
	assert.Equal(t, geodata.Pos{File: "s.xml", Line: 3, Col: 1}, got.Points[0].Source)
}

// One foot is 0.3048 m (1959); one United States survey foot 1200/3937 m.
func TestUnits(t *testing.T) {
	const point = `<CgPoints><CgPoint name="a">1000000 3937000 100</CgPoint></CgPoints>`
	for _, c := range []struct {
		name, units string
		opt         landxml.Options
		want        string
		codes       []string
	}{
		{"metres", metric, landxml.Options{}, "a survey point east 3937000 north 1000000 100", nil},
		{"feet", `<Units><Imperial linearUnit="foot"/></Units>`, landxml.Options{}, "a survey point east 1199997.6 north 304800 30.48", nil},
		{"survey feet", `<Units><Imperial linearUnit="USSurveyFoot" elevationUnit="feet"/></Units>`, landxml.Options{}, "a survey point east 1200000 north 304800.61 30.4801", nil},
		{"millimetres", `<Units><Metric linearUnit="millimeter"/></Units>`, landxml.Options{}, "a survey point east 3937 north 1000 0.1", nil},
		{"behind the points", "", landxml.Options{}, "a survey point east 1199997.6 north 304800 30.48", nil},
		{"none, but said", "", landxml.Options{Unit: geodata.Foot}, "a survey point east 1199997.6 north 304800 30.48", nil},
		{"none", "", landxml.Options{}, "", []string{"problem units-not-said"}},
		{"unknown", `<Units><Metric linearUnit="rod"/></Units>`, landxml.Options{}, "", []string{"problem unit-unknown:2:8"}},
		{"heights in another unit", `<Units><Imperial linearUnit="foot" elevationUnit="meter"/></Units>`, landxml.Options{}, "", []string{"problem units-differ:2:8"}},
		{"two units", metric + `<Units><Imperial linearUnit="foot"/></Units>`, landxml.Options{}, "", []string{"problem units-differ:2:74"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			inside := c.units + point
			if c.name == "behind the points" {
				inside = point + `<Units><Imperial linearUnit="foot"/></Units>`
			}
			got, fs := read(inside, c.opt)
			assert.Equal(t, c.codes, faulttest.Codes(fs))
			if c.codes == nil {
				assert.Equal(t, []string{c.want}, told(got))
			} else {
				assert.Empty(t, got.Points)
			}
		})
	}
}

const surface = `<Surfaces><Surface name="ground"><Definition surfType="TIN"><Pnts>
<P id="1">0 0 10</P><P id="2">0 5 11</P><P id="3">5 0 12</P><P id="4">50 50 0</P><P id="5">9 9 13</P>
</Pnts><Faces><F>1 2 3</F><F i="1">2 3 4</F></Faces></Definition></Surface></Surfaces>`

func TestSurface(t *testing.T) {
	got, fs := read(metric+surface, landxml.Options{})
	assert.Equal(t, []string{"note landxml-points-hidden:2:77"}, faulttest.Codes(fs))
	assert.Equal(t, []string{
		"1 surface point east 0 north 0 10", "2 surface point east 5 north 0 11",
		"3 surface point east 0 north 5 12", "5 surface point east 9 north 9 13",
	}, told(got))
}

// A surface made of the survey points lists each of them once more.
func TestSurfaceOnSurveyPoints(t *testing.T) {
	got, fs := read(metric+`<CgPoints><CgPoint name="a">0 5 11</CgPoint></CgPoints>`+surface, landxml.Options{})
	assert.ElementsMatch(t, []string{"note landxml-points-hidden:2:132", "note landxml-points-again:2:132"}, faulttest.Codes(fs))
	assert.Len(t, got.Points, 4)
	assert.Equal(t, "a survey point east 5 north 0 11", told(got)[0])
}

func TestSeveralSurfaces(t *testing.T) {
	two := metric + strings.Replace(surface, "</Surfaces>", `<Surface name="design" state="proposed"><Definition><Pnts><P id="1">0 0 99</P></Pnts></Definition></Surface></Surfaces>`, 1)
	_, fs := read(two, landxml.Options{})
	assert.Equal(t, []string{"problem surfaces-several:4:76"}, faulttest.Codes(fs))
	got, fs := read(two, landxml.Options{Surface: "ground"})
	assert.Zero(t, fs.Problems())
	assert.Len(t, got.Points, 4)
	_, fs = read(two, landxml.Options{Surface: "moon"})
	assert.Equal(t, "surface-unknown", fs[0].Code)
	_, fs = read(metric, landxml.Options{Surface: "moon"})
	assert.Equal(t, "surface-unknown", fs[0].Code)
	_, fs = read(two, landxml.Options{Surface: "design"})
	assert.Equal(t, []string{"warning landxml-surface-proposed:4:76"}, faulttest.Codes(fs))
}

func TestReferences(t *testing.T) {
	const points = metric + "<CgPoints>\n<CgPoint name=\"a\">1 2 3</CgPoint><CgPoint name=\"b\">4 5 6</CgPoint><CgPoint name=\"b\">7 8 9</CgPoint>\n"
	got, fs := read(points+`<CgPoint pntRef="a"/></CgPoints>`, landxml.Options{})
	assert.Empty(t, fs)
	assert.Len(t, got.Points, 3, "a reference is no new measurement")
	for ref, code := range map[string]string{"x": "reference-unknown", "b": "reference-unclear"} {
		_, fs = read(points+`<CgPoint pntRef="`+ref+`"/></CgPoints>`, landxml.Options{})
		assert.Equal(t, []string{"problem " + code + ":4:1"}, faulttest.Codes(fs))
	}
	_, fs = read(metric+`<CgPoints><CgPoint name="q" pntRef="q"/></CgPoints>`, landxml.Options{})
	assert.Equal(t, []string{"problem reference-unknown:2:77"}, faulttest.Codes(fs), "a point that refers to itself")
}

func TestFaults(t *testing.T) {
	for _, c := range []struct {
		name, inside string
		codes        []string
	}{
		{"all at once", metric + "<CgPoints>\n<CgPoint>1</CgPoint>\n<CgPoint>1 x 3</CgPoint>\n<CgPoint>1 2 3 4</CgPoint>\n<CgPoint>1 2 nan</CgPoint><CgPoint/></CgPoints>", []string{
			"problem point-numbers:3:10", "problem not-a-number:4:10", "problem point-numbers:5:10", "problem not-a-number:6:10", "problem point-numbers:6:27",
		}},
		{"decimal commas", metric + "<CgPoints>\n<CgPoint>1,5 2,5 3</CgPoint></CgPoints>", []string{"problem not-a-number:3:10"}},
		{"surface point without height", metric + "<Surface><Pnts>\n<P id='1'>1 2</P></Pnts></Surface>", []string{"problem number-missing:3:11"}},
		{"surface point twice", metric + "<Surface><Pnts>\n<P id='1'>1 2 3</P><P id='1'>4 5 6</P></Pnts></Surface>", []string{"problem point-twice:3:20"}},
		{"nothing", metric, []string{"problem no-points"}},
		{"lists only", metric + "<PntList3D>1 2 3</PntList3D>", []string{"problem no-points", "note landxml-part-not-read"}},
		{"stray face", metric + "<Surface><Pnts>\n<P id='1'>1 2 3</P></Pnts><Faces><F>1 8 9</F></Faces></Surface>", []string{"warning landxml-face-stray:2:67"}},
		{"faces before points", metric + "<Surface><Faces><F>1</F></Faces><Pnts><P id='1'>1 2 3</P></Pnts></Surface>", nil},
		{"system", metric + "<CoordinateSystem epsgCode='grid'/><CgPoints><CgPoint>1 2 3</CgPoint></CgPoints>", []string{"warning system-unknown:2:67"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, fs := read(c.inside, landxml.Options{})
			assert.Equal(t, c.codes, faulttest.Codes(fs))
			assert.Equal(t, fs.Problems() > 0, len(got.Points) == 0)
		})
	}
	_, fs := landxml.Read([]byte("<kml/>"), "s.xml", landxml.Options{})
	assert.Equal(t, []string{"problem not-landxml:1:1"}, faulttest.Codes(fs))
	_, fs = landxml.Read([]byte("<LandXML><CgPoints>"), "s.xml", landxml.Options{})
	assert.Equal(t, []string{"problem not-xml:1:20"}, faulttest.Codes(fs))
}

func TestSniff(t *testing.T) {
	assert.True(t, landxml.Sniff([]byte(file(metric))))
	assert.False(t, landxml.Sniff([]byte("<gpx/>")))
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(file(metric + surface)))
	f.Add([]byte(file(metric + `<CgPoints><CgPoint name="a">1 2 3</CgPoint><CgPoint pntRef="a"/></CgPoints>`)))
	f.Add([]byte("<LandXML><Units><Imperial linearUnit='foot'/></Units>"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, fs := landxml.Read(data, "f.xml", landxml.Options{})
		if len(got.Points) == 0 == (fs.Problems() == 0) {
			t.Fatalf("%d points and %d problems", len(got.Points), fs.Problems())
		}
	})
}

func ExampleRead() {
	file := `<LandXML version="1.2"><Units><Imperial linearUnit="foot"/></Units>
<CgPoints><CgPoint name="f3">100.0 50.0 91.5</CgPoint></CgPoints></LandXML>`
	points, faults := landxml.Read([]byte(file), "survey.xml", landxml.Options{})
	if err := faults.Err(); err != nil {
		fmt.Println(err)
		return
	}
	p := points.Points[0]
	fmt.Printf("%s: %.2f m east, %.2f m north, %.3f m high\n", p.Name, p.X, p.Y, p.Height)
	// Output:
	// f3: 15.24 m east, 30.48 m north, 27.889 m high
}
