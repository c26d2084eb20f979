package siting_test

import (
	"fmt"
	"math"
	"reflect"
	"regexp"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"crossfall/siting"
	"crossfall/terrain/surface"
)

// differences lists where two assessments of one plot in two frames disagree:
// a's places are sent through to, its heights raised by up, and figures may
// differ in the seventh digit. Texts are compared without the places in them.
func differences(a, b *siting.Assessment, to func(orb.Point) orb.Point, up float64) []string {
	s := same{to: to, up: up, plane: a.Ground.Surface == string(surface.PlaneKind)}
	s.walk("", reflect.ValueOf(*a), reflect.ValueOf(*b))
	return s.found
}

type same struct {
	to    func(orb.Point) orb.Point
	up    float64
	plane bool
	found []string
}

func (s *same) differ(path string, a, b any) {
	if len(s.found) < 20 {
		s.found = append(s.found, fmt.Sprintf("%s: %v and %v", path, a, b))
	}
}

// raised are the fields that hold a height above the survey's datum.
var raised = regexp.MustCompile(`^(\.Ground\.Heights\[\].Height|\.Ground\.Contours\[\]\.Level|` +
	`\.Beds\[\]\.Section\.((Ground\[\]|Fill\[\]\[\])\[y\]|Boards\[\]\.(Bottom|Top|Joints\[\])|Pegs\[\]\.(Top|Bottom|Tip))|` +
	`\.SettingOut\.(Marks\[\]|Rows\[\]\.Ends\[\]|Beds\[\]\.(Corners|Pegs)\[\])\.Height|\.SettingOut\.Datum\.Ground)$`)

var (
	index  = regexp.MustCompile(`\[\d+\]`)
	placed = regexp.MustCompile(`-?\d+\.\d+ m (?:east|north|west|south)|\(?x? ?-?\d+\.\d+,? (?:y|and) ?-?\d+\.\d+\)?|-?\d+\.\d+, -?\d+\.\d+|it would fit as .*`)
)

func (s *same) number(path string, a, b float64) {
	if raised.MatchString(index.ReplaceAllString(path, "[]")) {
		a += s.up
	}
	if strings.HasPrefix(path, ".Water.Paths") && strings.HasSuffix(path, ".Share") && math.Abs(a-b) < 0.025 {
		return // of 200 surfaces some pass just at the limit
	}
	if counted.MatchString(path) && math.Abs(a-b) <= 0.5+0.02*math.Max(math.Abs(a), math.Abs(b)) {
		return
	}
	if !(a == b || math.Abs(a-b) <= 1e-6*(1+math.Max(math.Abs(a), math.Abs(b))) || math.IsNaN(a) && math.IsNaN(b)) {
		s.differ(path, a, b)
	}
}

// line compares two courses, which are kept by a point each half metre: which of
// their many points those are may differ, and cuts a corner otherwise.
func (s *same) line(path string, a, b []orb.Point) {
	if len(a) == 0 || len(b) == 0 {
		s.number(path+"[]", float64(len(a)), float64(len(b)))
		return
	}
	here, there := orb.LineString(append([]orb.Point{b[0]}, b...)), orb.LineString{s.to(a[0])}
	for _, p := range a {
		there = append(there, s.to(p))
	}
	far := 0.0
	for i := range max(len(here), len(there)) {
		far = max(far, planar.DistanceFrom(there, here[min(i, len(here)-1)]), planar.DistanceFrom(here, there[min(i, len(there)-1)]))
	}
	if far > 0.5 {
		s.differ(path, "a line", fmt.Sprintf("one %.3f m off it", far))
	}
}

// counted are figures summed over the nodes of a lattice: a node that stands just
// at a limit, or level with its neighbour, goes by the last digit.
var counted = regexp.MustCompile(`^\.Water\.(Outflow|Inflow|Places|Advice|Storms|Drains)\[|\.PlaceNotes\[|\.Water\.Area\.`)

// figures are those in a text.
var figures = regexp.MustCompile(`-?\d+(\.\d+)?`)

// anyOf are the size of a damp place and the point that stands for it or for a
// crossing: on a plane whole rows of nodes are equally wet.
var anyOf = regexp.MustCompile(`^\.Water\.(Places\[\d+\]\.(At|Area)|(Out|In)flow\[\d+\]\.At)$`)

// damp are the places that are wetter than the rest, and what is said of them: a
// plane has some only where the last digits leave them.
var damp = regexp.MustCompile(`^\.Water\.(Places|Advice)|\.PlaceNotes`)

func (s *same) walk(path string, a, b reflect.Value) {
	if anyOf.MatchString(path) || s.plane && damp.MatchString(path) {
		return
	}
	switch p := a.Interface().(type) {
	case orb.Point:
		q := p
		if !strings.Contains(path, ".Section.") { // places on a cut through the bed
			q = s.to(p)
		}
		s.number(path+"[x]", q[0], b.Index(0).Float())
		s.number(path+"[y]", q[1], b.Index(1).Float())
		return
	case []orb.Point:
		if strings.HasPrefix(path, ".Water.Paths") || strings.Contains(path, ".Area.Outline") {
			s.line(path, p, b.Interface().([]orb.Point))
			return
		}
	case siting.Corner:
		q := s.to(orb.Point{p[0], p[1]})
		s.number(path+"[x]", q[0], b.Index(0).Float())
		s.number(path+"[y]", q[1], b.Index(1).Float())
		s.number(path+"[z]", p[2]+s.up, b.Index(2).Float())
		return
	}
	switch a.Kind() {
	case reflect.Float64:
		s.number(path, a.Float(), b.Float())
	case reflect.String:
		read := placed
		if counted.MatchString(path) {
			read = figures
		}
		if x, y := read.ReplaceAllString(a.String(), "there"), read.ReplaceAllString(b.String(), "there"); x != y {
			s.differ(path, x, y)
		}
	case reflect.Pointer, reflect.Interface:
		if a.IsNil() != b.IsNil() {
			s.differ(path, a.IsNil(), b.IsNil())
		} else if !a.IsNil() {
			s.walk(path, a.Elem(), b.Elem())
		}
	case reflect.Struct:
		for i := range a.NumField() {
			if f := a.Type().Field(i); f.IsExported() {
				s.walk(path+"."+f.Name, a.Field(i), b.Field(i))
			}
		}
	case reflect.Slice, reflect.Array:
		if a.Len() != b.Len() {
			s.differ(path, a.Len(), b.Len())
			return
		}
		for i := range a.Len() {
			s.walk(fmt.Sprintf("%s[%d]", path, i), a.Index(i), b.Index(i))
		}
	default:
		if !reflect.DeepEqual(a.Interface(), b.Interface()) {
			s.differ(path, a.Interface(), b.Interface())
		}
	}
}
