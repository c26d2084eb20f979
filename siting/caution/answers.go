package caution

import (
	"fmt"
	"slices"
	"strings"

	"crossfall/geodata"
)

// Greatest embedment, m, of any peg or sunken edge: defaults of ours. Typical
// cover of telecoms is 250 to 350 mm, and power has been met at 300 mm in a
// garden, so deeper work waits until every service is accounted for.
const (
	CapUnlocated = 0.30
	CapLocated   = 0.45
)

// answer is what is known of one carrier, from least to most.
type answer uint8

const (
	notAnswered answer = iota
	drawnOnly          // drawn, or answered in words that settle nothing
	atOdds             // the answer and the drawing say different things
	settled            // located, or known to be absent
)

// answerOf reads the grower's answer beside what is drawn.
func answerOf(plot *geodata.Plot, c geodata.Carrier) answer {
	word := strings.ToLower(strings.TrimSpace(plot.Site.Services[c]))
	drawn := slices.ContainsFunc(plot.Fixtures, func(f geodata.Fixture) bool {
		return f.Kind == geodata.ServiceKind && !f.Overhead &&
			(f.Carries == c || f.Carries == "" && c == geodata.OtherCarrier)
	})
	switch {
	case word == "" || word == "unknown":
		return notAnswered
	case saidBy(word, "located by"):
		return agreed(drawn)
	case saidBy(word, "none, known by"):
		return agreed(!drawn)
	case !drawn:
		return atOdds // "drawn", and is not
	}
	return drawnOnly
}

// saidBy is true for words that begin so and go on to say by whom or what.
func saidBy(word, start string) bool {
	rest, ok := strings.CutPrefix(word, start)
	return ok && strings.HasPrefix(rest, " ") && strings.TrimSpace(rest) != ""
}

func agreed(ok bool) answer {
	if ok {
		return settled
	}
	return atOdds
}

// carriersWith lists the carriers so answered, as people read them.
func carriersWith(plot *geodata.Plot, a answer) []string {
	var out []string
	for _, c := range geodata.Carriers() {
		if answerOf(plot, c) == a {
			out = append(out, carrierSaid(c))
		}
	}
	return out
}

func carrierSaid(c geodata.Carrier) string {
	switch c {
	case geodata.OtherCarrier:
		return "anything else buried (garden lighting, watering pipes)"
	case geodata.WaterPipe:
		return "water pipes"
	case geodata.Drain:
		return "drains"
	}
	return string(c)
}

// Unlocated warns of the services that nobody has accounted for, and of
// answers in site.toml that the drawing does not bear out.
func Unlocated(plot *geodata.Plot) []Caution {
	var out []Caution
	if open := carriersWith(plot, notAnswered); len(open) > 0 {
		out = append(out, Caution{
			ID: "services-unknown", Severity: Warning, Kind: "service",
			Text: fmt.Sprintf("Not known whether these are buried here: %s. Assume that they are: pegs and sunken edges go no deeper than %s, not counting a peg's point, "+
				"until each is answered \"located by ...\" or \"none, known by ...\" in site.toml.",
				listed(open), millimetres(CapUnlocated)),
			Source: "assume services present: electricity network operators' published advice; depth: default of ours",
		})
	}
	if odd := carriersWith(plot, atOdds); len(odd) > 0 {
		out = append(out, Caution{
			ID: "services-at-odds", Severity: Warning, Kind: "service",
			Text: fmt.Sprintf("The answer in site.toml and the drawing do not agree for %s. Draw every service that is there, and answer \"none, known by ...\" "+
				"only where none is drawn: distances can be checked only from what is drawn.", listed(odd)),
			Source: "default of ours",
		})
	}
	return out
}

// DepthCap is the greatest embedment of pegs and sunken edges, m, and why:
// CapLocated when each of the seven services is located and drawn, or known to
// be absent; CapUnlocated until then.
func DepthCap(plot *geodata.Plot) (metres float64, why string) {
	var open []string
	for _, c := range geodata.Carriers() {
		if answerOf(plot, c) != settled {
			open = append(open, carrierSaid(c))
		}
	}
	if len(open) == 0 {
		return CapLocated, fmt.Sprintf("%s (default of ours): every service is located, or known to be absent", millimetres(CapLocated))
	}
	return CapUnlocated, fmt.Sprintf("%s (default of ours): not yet located, or known to be absent: %s", millimetres(CapUnlocated), listed(open))
}

// listed joins words as "a, b and c".
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}
