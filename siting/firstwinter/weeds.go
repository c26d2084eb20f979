package firstwinter

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"crossfall/geodata"
)

// CommonPractice marks figures that no publication stands behind.
const CommonPractice = "common practice, no source"

// LightThrough is the share of light that one layer of woven ground cover lets
// through (common practice, no source).
const LightThrough = 0.30

// LayersFor is how many layers of woven ground cover let through no more than a
// share of the light, over 0 and under 1.
func LayersFor(share float64) int {
	return max(1, int(math.Ceil(math.Log(share)/math.Log(LightThrough)-1e-9)))
}

// Weed is a perennial weed that comes again from what is left in the ground. All
// its figures are common practice, no source.
type Weed struct {
	Common    string
	Botanical string
	Also      []string // other common and botanical names
	Spreads   string
	First     string           // what to do with it before it is covered
	Cardboard int              // sheets, one on the other
	Light     float64          // share of the light that the cover may let through
	Months    geodata.Estimate // under the cover, a growing season among them
	// Leave says why it must not be dug or covered; then there are no figures.
	Leave string
}

// Layers is how many layers of woven cover it wants.
func (w Weed) Layers() int { return LayersFor(w.Light) }

// Named finds a weed by any of its names, whatever its capitals, hyphens and
// spaces.
func Named(name string) (Weed, bool) {
	for _, w := range weeds {
		for _, n := range w.names() {
			if plain(n) == plain(name) && plain(name) != "" {
				return w, true
			}
		}
	}
	return Weed{}, false
}

func (w Weed) names() []string { return append([]string{w.Common, w.Botanical}, w.Also...) }

func plain(name string) string {
	return strings.NewReplacer(" ", "", "-", "", "'", "", "’", "").Replace(strings.ToLower(name))
}

// Names lists the common names, in the order of the alphabet.
func Names() []string {
	out := make([]string, len(weeds))
	for i, w := range weeds {
		out[i] = w.Common
	}
	slices.SortFunc(out, func(a, b string) int { return cmp.Compare(strings.ToLower(a), strings.ToLower(b)) })
	return out
}

// NamesNear are at most three names that are most like a text, nearest first; nil
// where none is like it by half its letters.
func NamesNear(text string) []string {
	type near struct {
		name string
		off  int
	}
	var found []near
	for _, w := range weeds {
		for _, n := range w.names() {
			if off := apart(text, n); off <= max(1, len(plain(text))/2) {
				found = append(found, near{n, off})
			}
		}
	}
	slices.SortStableFunc(found, func(a, b near) int { return cmp.Compare(a.off, b.off) })
	var out []string
	for _, f := range found[:min(3, len(found))] {
		out = append(out, f.name)
	}
	return out
}

// apart is how far a text is from a name; one that is a word of the name is near.
func apart(text, name string) int {
	if p := plain(text); len(p) > 3 && strings.Contains(plain(name), p) {
		return 1
	}
	return geodata.LettersApart(plain(text), plain(name))
}
