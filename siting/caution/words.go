package caution

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"crossfall/geodata"
)

// id joins the parts that are not empty, each in lower case with hyphens.
func id(parts ...string) string {
	var kept []string
	for _, p := range parts {
		if p = slug(p); p != "" {
			kept = append(kept, p)
		}
	}
	return strings.Join(kept, ".")
}

// slug keeps letters and digits, and puts one hyphen for what lies between.
func slug(s string) string {
	words := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	return strings.Join(words, "-")
}

// named is a fixture with the name that people read and the one in ids.
type named struct {
	geodata.Fixture
	said string // such as: the service "power to shed" (electricity)
	key  string // no two fixtures of one list share it
}

// name gives every fixture of a list a name of its own; those that share one,
// or have none, are numbered in reading order.
func name(fixtures []geodata.Fixture) []named {
	out := make([]named, len(fixtures))
	seen := map[string]bool{}
	for i, f := range fixtures {
		what := whatIs(f)
		out[i] = named{Fixture: f, said: said(f, what)}
		base := slug(f.Name)
		if base == "" {
			base = slug(what)
		}
		key := base
		for n := 2; seen[key]; n++ {
			key = fmt.Sprintf("%s-%d", base, n)
		}
		seen[key] = true
		out[i].key = key
	}
	return out
}

// whatIs says in a word or two what a fixture is.
func whatIs(f geodata.Fixture) string {
	switch {
	case f.Kind == geodata.ServiceKind && (f.Carries == geodata.OtherCarrier || f.Carries == ""):
		return "unknown kind"
	case f.Kind == geodata.ServiceKind:
		return string(f.Carries)
	case f.What != "":
		return f.What
	}
	return string(f.Kind)
}

// said names a fixture in a sentence.
func said(f geodata.Fixture, what string) string {
	service := f.Kind == geodata.ServiceKind
	switch {
	case service && f.Name == "":
		return fmt.Sprintf("an unnamed service (%s)", what)
	case service:
		return fmt.Sprintf("the service %q (%s)", f.Name, what)
	case f.Name == "":
		return "an unnamed " + what
	}
	return fmt.Sprintf("%q (%s)", f.Name, what)
}

// metresDown and metresUp print a distance to the centimetre, so that what was
// found never reads as large as what was needed.
func metresDown(m float64) string { return fmt.Sprintf("%.2f m", math.Floor(m*100+1e-6)/100) }
func metresUp(m float64) string   { return fmt.Sprintf("%.2f m", math.Ceil(m*100-1e-6)/100) }

// millimetres prints a height to the nearest millimetre.
func millimetres(m float64) string { return fmt.Sprintf("%.0f mm", m*1000) }

// Sort orders cautions: stops, then warnings, then notes; within one severity
// by bed, whole plot first and "bed 2" before "bed 10"; then by id.
func Sort(cautions []Caution) {
	slices.SortStableFunc(cautions, func(a, b Caution) int {
		return cmp.Or(
			cmp.Compare(a.Severity.rank(), b.Severity.rank()),
			compareNames(a.Bed, b.Bed),
			compareNames(a.ID, b.ID),
		)
	})
}

func (s Severity) rank() int {
	switch s {
	case Stop:
		return 0
	case Warning:
		return 1
	}
	return 2
}

// compareNames compares text with its runs of digits taken as numbers, and as
// plain text when that leaves them equal.
func compareNames(a, b string) int {
	x, y := a, b
	for x != "" && y != "" {
		p, q := run(x), run(y)
		if p != q {
			if digit(p[0]) && digit(q[0]) {
				m, n := strings.TrimLeft(p, "0"), strings.TrimLeft(q, "0")
				if c := cmp.Or(cmp.Compare(len(m), len(n)), cmp.Compare(m, n)); c != 0 {
					return c
				}
			} else {
				return cmp.Compare(p, q)
			}
		}
		x, y = x[len(p):], y[len(q):]
	}
	return cmp.Or(cmp.Compare(len(x), len(y)), cmp.Compare(a, b))
}

// run is the leading run of digits, or of anything else.
func run(s string) string {
	n := 1
	for n < len(s) && digit(s[n]) == digit(s[0]) {
		n++
	}
	return s[:n]
}

func digit(c byte) bool { return c >= '0' && c <= '9' }

// deference closes every stop and warning.
const deference = "Local code and licensed practice rule."

// Defer closes each stop and warning that does not yet name the local code
// with the words that it and licensed practice rule.
func Defer(cautions []Caution) {
	for i, c := range cautions {
		if c.Severity == Note || strings.Contains(c.Text, "local code") || strings.Contains(c.Text, deference) {
			continue
		}
		cautions[i].Text = strings.TrimSpace(c.Text) + " " + deference
	}
}
