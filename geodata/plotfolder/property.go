package plotfolder

import (
	"fmt"
	"slices"
	"strings"

	"crossfall/geodata"
)

// property is one thing that can be said of a feature. One of number, flag and
// word is set.
type property struct {
	key       string // as people write it, with its unit
	base      string // without unit, words parted by blanks
	kinds     []geodata.Kind
	low, high float64 // of number, m
	number    func(*geodata.Fixture) *float64
	flag      func(*geodata.Fixture) *bool
	word      func(f *geodata.Fixture, text string) (problem, want string)
}

// properties is the table of what can be said of a feature. The ranges are
// there to catch slips and units; they are defaults of ours.
func properties() []property {
	return []property{
		{key: "what", base: "what", kinds: []geodata.Kind{geodata.ObstacleKind}, word: setWhat},
		{
			key: "height_m", base: "height", kinds: []geodata.Kind{geodata.ObstacleKind, geodata.TreeKind}, low: 0.05, high: 60,
			number: func(f *geodata.Fixture) *float64 { return &f.TopHeight },
		},
		{
			key: "stem_diameter_m", base: "stem diameter", kinds: []geodata.Kind{geodata.TreeKind}, low: 0.005, high: 5,
			number: func(f *geodata.Fixture) *float64 { return &f.StemDiameter },
		},
		{
			key: "evergreen", base: "evergreen", kinds: []geodata.Kind{geodata.TreeKind},
			flag: func(f *geodata.Fixture) *bool { return &f.Evergreen },
		},
		{key: "carries", base: "carries", kinds: []geodata.Kind{geodata.ServiceKind}, word: setCarries},
		{
			key: "overhead", base: "overhead", kinds: []geodata.Kind{geodata.ServiceKind},
			flag: func(f *geodata.Fixture) *bool { return &f.Overhead },
		},
		{key: "located", base: "located", kinds: []geodata.Kind{geodata.ServiceKind}, word: setLocated},
		{
			key: "depth_m", base: "depth", kinds: []geodata.Kind{geodata.ServiceKind}, low: 0.01, high: 20,
			number: func(f *geodata.Fixture) *float64 { return &f.Depth },
		},
		{
			key: "position_error_m", base: "position error", kinds: []geodata.Kind{geodata.ServiceKind}, low: 0.001, high: 50,
			number: func(f *geodata.Fixture) *float64 { return &f.PositionError },
		},
		{
			key: "map_east_m", base: "map east", kinds: []geodata.Kind{geodata.MarkKind}, low: -1e8, high: 1e8,
			number: func(f *geodata.Fixture) *float64 { return &f.MapEast },
		},
		{
			key: "map_north_m", base: "map north", kinds: []geodata.Kind{geodata.MarkKind}, low: -1e8, high: 1e8,
			number: func(f *geodata.Fixture) *float64 { return &f.MapNorth },
		},
		{
			key: "pinned", base: "pinned", kinds: []geodata.Kind{geodata.BedKind},
			flag: func(f *geodata.Fixture) *bool { return &f.Pinned },
		},
	}
}

func setWhat(f *geodata.Fixture, text string) (problem, want string) {
	f.What = strings.ToLower(text)
	return "", ""
}

func setCarries(f *geodata.Fixture, text string) (problem, want string) {
	carrier := geodata.Carrier(strings.ToLower(text))
	if !slices.Contains(geodata.Carriers(), carrier) {
		return "is not a service that is known", didYouMean(text, carrierNames())
	}
	f.Carries = carrier
	return "", ""
}

// setLocated takes only words that say how, because a located service is
// given less clearance than one that is only drawn.
func setLocated(f *geodata.Fixture, text string) (problem, want string) {
	switch lower := strings.ToLower(text); {
	case lower == "drawn" || lower == "false" || lower == "no":
		return "", ""
	case saysHow(lower, locatedBy):
		f.Located = text
		return "", ""
	}
	return "does not say how the service was located", `write "located by ..." with how and by whom, or leave it empty`
}

// What the words for a service begin with.
const (
	locatedBy = "located by "
	noneKnown = "none, known by "
)

// saysHow tells whether a text is a beginning with something behind it.
func saysHow(text, beginning string) bool {
	rest, ok := strings.CutPrefix(text, beginning)
	return ok && strings.TrimSpace(rest) != ""
}

func carrierNames() []string {
	var names []string
	for _, c := range geodata.Carriers() {
		names = append(names, string(c))
	}
	return names
}

// propertyNamed finds a property by its name without unit.
func propertyNamed(base string) (property, bool) {
	for _, p := range properties() {
		if p.base == base {
			return p, true
		}
	}
	return property{}, false
}

// propertyKeys are the properties as people write them, with the words that
// every feature may have.
func propertyKeys() []string {
	keys := []string{"kind", "name"}
	for _, p := range properties() {
		keys = append(keys, p.key)
	}
	return keys
}

// suits warns when a property does not belong to a kind.
func (p property) suits(d *drawn, pos geodata.Pos, read string, c *collector) bool {
	if slices.Contains(p.kinds, d.Kind) {
		return true
	}
	c.warn(pos, "property-not-of-kind", read, fmt.Sprintf("%s says nothing about %s: it was not taken", p.key, d.called()), "")
	return false
}

// lastDigit is by how much a limit of a range may seem to be passed, m, when it was
// written in inches or feet with four decimals.
const lastDigit = 2e-5

// setNumber sets a number in metres within its range.
func (p property) setNumber(f *geodata.Fixture, metres float64, pos geodata.Pos, read string, c *collector) {
	if metres < p.low-lastDigit || metres > p.high+lastDigit {
		c.problem(pos, "property-out-of-range", read, p.key+" is out of its range", fmt.Sprintf("write from %g to %g m", p.low, p.high))
		return
	}
	*p.number(f) = metres
}

// setText sets a flag or a word from text.
func (p property) setText(f *geodata.Fixture, text string, pos geodata.Pos, c *collector) {
	if p.flag != nil {
		v, ok := yesOrNo(text)
		if !ok {
			c.problem(pos, "not-yes-or-no", text, p.key+" is neither true nor false", "write true or false")
			return
		}
		*p.flag(f) = v
		return
	}
	if problem, want := p.word(f, text); problem != "" {
		c.problem(pos, "property-word-unknown", text, p.key+" "+problem, want)
	}
}

func yesOrNo(text string) (v, ok bool) {
	switch strings.ToLower(text) {
	case "true", "yes", "1":
		return true, true
	case "false", "no", "0":
		return false, true
	}
	return false, false
}

// kindNamed finds a kind by its word, whatever its case and whether its parts
// are joined by a hyphen, a blank or an underscore.
func kindNamed(text string) (geodata.Kind, bool) {
	k := geodata.Kind(strings.NewReplacer("_", "-", " ", "-").Replace(strings.ToLower(strings.TrimSpace(text))))
	return k, slices.Contains(geodata.Kinds(), k)
}

func kindNames() []string {
	var names []string
	for _, k := range geodata.Kinds() {
		names = append(names, string(k))
	}
	return names
}
