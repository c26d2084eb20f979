package plotfolder_test

import (
	"math"
	"testing"

	"crossfall/geodata"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const edge = "kind,name,x,y\nboundary,plot,-1,-1\nboundary,plot,21,-1\nboundary,plot,21,21\nboundary,plot,-1,21\n"

func TestEveryKindOfFeaturesCSV(t *testing.T) {
	p := plot(t, files{"heights.csv": sound, "features.csv": `kind,name,x,y,z,what,height_m,stem_diameter_m,evergreen,carries,overhead,located,depth_m,position_error_m,pinned,note
boundary,plot,-1,-1,,,,,,,,,,,,
boundary,plot,-1,21,,,,,,,,,,,,
boundary,plot,21,21,,,,,,,,,,,,
boundary,plot,21,-1,,,,,,,,,,,,clockwise
No_Go,pond,1,1,,,,,,,,,,,,
no go,pond,3,1,,,,,,,,,,,,
no-go,pond,2,3,,,,,,,,,,,,
obstacle,shed,15,15,,shed,2.4,,,,,,,,,
obstacle,shed,18,15,,,,,,,,,,,,
obstacle,shed,18,17,,,,,,,,,,,,
obstacle,shed,15,17,,,,,,,,,,,,
obstacle,hedge,0,20,,Hedge,1.8 m,,,,,,,,,
obstacle,hedge,10,20,,,,,,,,,,,,
obstacle,hedge,20,20,,,,,,,,,,,,
obstacle,post,12,2,,post,,,,,,,,,,
tree,apple,5,18,,,4.5,0.22,no,,,,,,,
tree,yew,6,18,,,6,0.4,yes,,,,,,,
service,cable,0,10,,,,,,Electricity,false,drawn,0.45,0.5,,
service,cable,20,10,,,,,,,,,,,,
service,line,0,12,,,,,,telecoms,true,located by the pole on the lane,,,,
service,line,20,12,,,,,,,,,,,,
path,main,10,-1,,,,,,,,,,,,
path,main,10,21,,,,,,,,,,,,
gate,north,10,21,,,,,,,,,,,,
heap,tipped,9,20,,,,,,,,,,,,
break-line,bank,2,8,29.5,,,,,,,,,,,
break-line,bank,8,8,,,,,,,,,,,,
mark,post A,0,0,29,,,,,,,,,,,
bed,b1,12,5,,,,,,,,,,,true,
bed,b1,15.6,5,,,,,,,,,,,,
bed,b1,15.6,6.2,,,,,,,,,,,,
bed,b1,12,6.2,,,,,,,,,,,,
`})
	assert.True(t, p.BoundaryDrawn)
	assert.InDelta(t, 484, geodata.SignedArea(p.Boundary[0]), 1e-9, "turned counterclockwise")
	var kinds []geodata.Kind
	for _, f := range p.Fixtures {
		kinds = append(kinds, f.Kind)
		assert.Equal(t, "features.csv", f.Source.File)
	}
	assert.Equal(t, []geodata.Kind{"no-go", "obstacle", "obstacle", "obstacle", "tree", "tree", "service", "service", "path", "gate", "heap", "break-line", "mark", "bed"}, kinds)
	one := func(name string) geodata.Fixture {
		for _, f := range p.Fixtures {
			if f.Name == name {
				f.Source = geodata.Pos{Line: f.Source.Line}
				return f
			}
		}
		require.Fail(t, name)
		return geodata.Fixture{}
	}
	assert.Equal(t, orb.Polygon{{{1, 1}, {3, 1}, {2, 3}, {1, 1}}}, one("pond").Shape)
	assert.Equal(t, geodata.Fixture{
		Kind: "obstacle", Name: "shed", What: "shed", TopHeight: 2.4, Source: geodata.Pos{Line: 9},
		Shape: orb.Polygon{{{15, 15}, {18, 15}, {18, 17}, {15, 17}, {15, 15}}},
	}, one("shed"))
	assert.Equal(t, orb.LineString{{0, 20}, {10, 20}, {20, 20}}, one("hedge").Shape, "a hedge is a line")
	assert.Equal(t, "hedge", one("hedge").What)
	assert.Equal(t, 1.8, one("hedge").TopHeight)
	assert.Equal(t, orb.Point{12, 2}, one("post").Shape)
	assert.Equal(t, geodata.Fixture{Kind: "tree", Name: "yew", Shape: orb.Point{6, 18}, TopHeight: 6, StemDiameter: 0.4, Evergreen: true, Source: geodata.Pos{Line: 18}}, one("yew"))
	assert.False(t, one("apple").Evergreen)
	assert.Equal(t, geodata.Fixture{
		Kind: "service", Name: "cable", Shape: orb.LineString{{0, 10}, {20, 10}}, Carries: geodata.Electricity,
		Depth: 0.45, PositionError: 0.5, Source: geodata.Pos{Line: 19},
	}, one("cable"), "drawn is not located")
	assert.True(t, one("line").Overhead)
	assert.Equal(t, "located by the pole on the lane", one("line").Located)
	bank := one("bank")
	require.Len(t, bank.Heights, 2)
	assert.Equal(t, 29.5, bank.Heights[0])
	assert.True(t, math.IsNaN(bank.Heights[1]))
	assert.Equal(t, []float64{29}, one("post A").Heights)
	assert.Nil(t, one("main").Heights)
	assert.True(t, one("b1").Pinned)
	assert.Equal(t, one("north").Shape, p.OfKind(geodata.GateKind)[0].Shape)
}

func TestFeaturesCSVFaults(t *testing.T) {
	const head = "kind,name,x,y,what,height_m,carries,located,overhead,pinned\n"
	for _, c := range []struct {
		name, text string
		want       []string
		advice     string
	}{
		{"unknown kind", "kind,name,x,y\nobstcle,shed,1,1\n", []string{"kind-unknown at features.csv:2:1: obstcle"}, "write obstacle"},
		{"kind of another world", "kind,name,x,y\nhelicopter,h,1,1\n", []string{"kind-unknown at features.csv:2:1: helicopter"}, "write one of boundary, no-go, obstacle"},
		{"nearly a property", "kind,name,x,y,hieght_m\ntree,t,1,1,3\n", []string{"column-unknown at features.csv:1:15: hieght_m"}, "write height_m"},
		{"nearly, without unit", "kind,name,x,y,hight\ntree,t,1,1,3\n", []string{"column-unknown at features.csv:1:15: hight"}, "write height_m"},
		{"property twice", "kind,name,x,y,height_m,height (ft)\ntree,t,1,1,3,\n", []string{"column-twice at features.csv:1:24: height (ft)"}, "keep one"},
		{"unit of a property", "kind,name,x,y,height (furlong)\ntree,t,1,1,3\n", []string{"unit-unknown at features.csv:1:15: height (furlong)"}, "write m, cm"},
		{"no header", "tree,t,1,1\n", []string{"no-header at features.csv:1: tree,t,1,1"}, "kind,name,x,y"},
		{"no kind", "name,x,y\nt,1,1\n", []string{"column-missing at features.csv:1: name,x,y"}, "kind,name,x,y"},
		{"delimiters only", ",,,\n", []string{"empty-file at features.csv: "}, "header"},
		{"bow tie", "kind,name,x,y\nboundary,p,0,0\nboundary,p,20,20\nboundary,p,20,0\nboundary,p,0,20\n", []string{"boundary-crosses-itself at features.csv:4: "}, "one after the other along the edge"},
		{"two corners", "kind,name,x,y\nno-go,p,0,0\nno-go,p,20,20\n", []string{"no-go-too-few-corners at features.csv:2: "}, "at least three corners"},
		{"two boundaries", edge + "boundary,q,0,0\nboundary,q,9,0\nboundary,q,9,9\n", []string{"two-boundaries at features.csv:6: "}, "keep one of them"},
		{"interrupted", "kind,name,x,y\nno-go,p,0,0\nno-go,p,2,0\nno-go,p,2,2\nmark,m,5,5\nno-go,p,0,2\n", []string{"shape-interrupted at features.csv:6: no-go,p,0,2"}, "keep the rows of a shape together"},
		{"service of one point", "kind,name,x,y\nservice,s,1,1\n", []string{"corners-do-not-suit at features.csv:2: "}, "give two points or more"},
		{"bed that leans", "kind,name,x,y\nbed,b,0,0\nbed,b,4,0\nbed,b,5,1.2\nbed,b,1,1.2\n", []string{"bed-not-rectangle at features.csv:2: "}, "four corners of a rectangle"},
		{"bed of three corners", "kind,name,x,y\nbed,b,0,0\nbed,b,4,0\nbed,b,4,1.2\n", []string{"bed-not-rectangle at features.csv:2: "}, "four corners of a rectangle"},
		{"bed that tapers", "kind,name,x,y\nbed,b,0,0\nbed,b,4,0\nbed,b,4,1.2\nbed,b,0,1.0\n", []string{"bed-not-rectangle at features.csv:2: "}, "four corners of a rectangle"},
		{"two marks of one name", "kind,name,x,y\nmark,m,1,1\nmark,m,2,2\n", []string{"name-twice at features.csv:3: m"}, "its own name"},
		{"height out of range", head + "tree,t,1,1,,200,,,,\n", []string{"property-out-of-range at features.csv:2:13: 200"}, "from 0.05 to 60 m"},
		{"height of text", head + "tree,t,1,1,,tall,,,,\n", []string{"not-a-number at features.csv:2:13: tall"}, "write a number"},
		{"carries", head + "service,s,1,1,,,electrcity,,,\nservice,s,9,1,,,,,,\n", []string{"property-word-unknown at features.csv:2:17: electrcity"}, "write electricity"},
		{"located without how", head + "service,s,1,1,,,gas,yes,,\nservice,s,9,1,,,,,,\n", []string{"property-word-unknown at features.csv:2:21: yes"}, `"located by ..."`},
		{"overhead", head + "service,s,1,1,,,gas,,maybe,\nservice,s,9,1,,,,,,\n", []string{"not-yes-or-no at features.csv:2:22: maybe"}, "true or false"},
		{"contradiction", head + "obstacle,s,1,1,shed,2,,,,\nobstacle,s,3,1,shed,3,,,,\nobstacle,s,3,3,,,,,,\n", []string{"property-contradicts at features.csv:3:21: 3"}, "in the first row"},
		{"text for a place", "kind,name,x,y\nmark,m,here,1\nmark,n,1,there\n", []string{"not-a-number at features.csv:2:8: here", "not-a-number at features.csv:3:10: there"}, "write a number"},
		{"short row", "kind,name,x,y\nmark,m,1\n", []string{"short-row at features.csv:2: mark,m,1"}, "write all 4 cells"},
		{"too wide", "kind,name,x,y\nmark,m,1,1\nmark,n,1,9000\n", []string{"plot-too-wide at features.csv:3: 1.00, 9000.00"}, "in one frame"},
	} {
		t.Run(c.name, func(t *testing.T) {
			fs := faults(t, files{"heights.csv": sound, "features.csv": c.text})
			assert.Equal(t, c.want, short(fs))
			assert.Contains(t, fs[0].Want, c.advice)
			assert.NotEmpty(t, fs[0].Want)
		})
	}
}

func TestFeaturesCSVToldAndTaken(t *testing.T) {
	p := plot(t, files{"heights.csv": sound, "features.csv": "kind,name,x,y,colour,height_m\nservice,s,1,1,red,\nservice,s,1,1,,\nservice,s,9,1,,\nbed,b,2,2,,0.3\nbed,b,5.6,2,,\nbed,b,5.6,3.2,,\nbed,b,2,3.2,,\nbed,b,2,2,,\n"})
	assert.Equal(t, []string{"column-not-read", "carries-not-said", "property-not-of-kind"}, codes(p.Notes, geodata.Warning))
	assert.Contains(t, codes(p.Notes, geodata.Note), "corner-repeated")
	assert.Equal(t, geodata.OtherCarrier, p.Fixtures[0].Carries)
	assert.Equal(t, orb.LineString{{1, 1}, {9, 1}}, p.Fixtures[0].Shape)
	assert.Zero(t, p.Fixtures[1].TopHeight)
	assert.Len(t, p.Fixtures[1].Shape.(orb.Polygon)[0], 5, "the first corner may be repeated")

	p = plot(t, files{"heights.csv": sound, "features.csv": "kind,name,x (ft),y (ft),height (ft)\ntree,t,10,20,12'6\"\n"})
	assert.InDelta(t, 3.048, p.Fixtures[0].Shape.(orb.Point)[0], 1e-12)
	assert.InDelta(t, 3.81, p.Fixtures[0].TopHeight, 1e-12)
}

func TestHeightsAndBoundaryBelongTogether(t *testing.T) {
	away := "kind,name,x,y\nboundary,p,500,500\nboundary,p,520,500\nboundary,p,520,520\n"
	fs := faults(t, files{"heights.csv": sound, "features.csv": away})
	assert.Equal(t, []string{"no-overlap at heights.csv: "}, short(fs))
	assert.Contains(t, fs[0].Want, "same frame")
	p := plot(t, files{"heights.csv": sound, "features.csv": "kind,name,x,y\nboundary,p,-1,-1\nboundary,p,1,-1\nboundary,p,1,21\nboundary,p,-1,21\n" + "mark,m,3,3\n"})
	assert.Empty(t, codes(p.Notes, geodata.Warning), "half of them outside is let pass")
	p = plot(t, files{"heights.csv": sound, "features.csv": "kind,name,x,y\nboundary,p,-1,-1\nboundary,p,1,-1\nboundary,p,1,1\nboundary,p,-1,1\n"})
	assert.Equal(t, "3 of 4 heights lie outside the boundary", find(t, p.Notes, "heights-outside").Message)
}

// 0.05 m are 1.9685 in, which are 49.9999 mm.
func TestLimitsHoldInInches(t *testing.T) {
	tree := func(height string) files {
		return files{"heights.csv": sound, "features.csv": "kind,name,x,y,height_m\ntree,box,5,5," + height + "\n"}
	}
	assert.InDelta(t, 0.05, plot(t, tree("1.9685 in")).Fixtures[0].TopHeight, 1e-6)
	assert.ErrorContains(t, faults(t, tree("1.96 in")), "out of its range")
}
