package words

import (
	"strings"

	"crossfall/geodata"
	"crossfall/siting"
)

// rain is a depth of rain given in millimetres.
func (w Words) rain(mm float64) string { return w.Units.RainDepth(mm) }

// rate is a rate of rain given in millimetres an hour.
func (w Words) rate(mm float64) string { return w.Units.Rate(mm) }

// Water says what rain was used and where it runs.
func (w Words) Water(a *siting.Assessment) []Item {
	wa := a.Water
	var out []Item
	add := func(name, value string) {
		if value != "" {
			out = append(out, Item{name, sentence(w.Prose(value))})
		}
	}
	if wa.WinterRain == nil {
		add("Winter rain", "no rain figures were given")
	} else {
		out = append(out, Item{"Winter rain", sentence(of(*wa.WinterRain, w.rain) + ", " + wa.WinterMonths + "; from " + w.Prose(wa.WinterSource))})
	}
	if wa.DesignRain != (geodata.Estimate{}) {
		out = append(out, Item{"Design storm", sentence(strings.TrimSuffix(of(wa.DesignRain, w.rate)+"; "+w.Prose(wa.DesignSaid), "; "))})
		add("Its source", wa.DesignSource)
	}
	add("Storm over the plot", stormSaid(wa.Storm))
	for _, p := range wa.Paths {
		out = append(out, Item{"Runoff " + p.Name, sentence(w.Units.Length(p.Length) + " long: " + w.Prose(p.Said))})
	}
	for _, h := range a.Ground.Hollows {
		out = append(out, Item{"Hollow", sentence(w.Small(h.Depth) + " deep over " + w.Units.Area(h.Area) + ", holding " +
			w.Units.Volume(h.Volume) + "; deepest at " + w.Place(h.At) + ", spills at " + w.Place(h.Spill))})
	}
	return out
}

// stormSaid says what the state of the storm means for the classes of edge.
func stormSaid(state string) string {
	switch state {
	case "":
		return ""
	case "current":
		return "current: it may have raised a bed's class of edge"
	}
	return state + ": the classes of edge rest on the depth of sheet flow"
}
