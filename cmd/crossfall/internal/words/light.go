package words

import (
	"fmt"
	"strings"

	"crossfall/geodata"
	"crossfall/siting"
)

// LightHeads are the heads of LightRows; empty without sun hours.
func LightHeads(a *siting.Assessment) []string {
	for _, b := range a.Beds {
		if b.Light == nil {
			continue
		}
		heads := []string{"Hours at"}
		for _, d := range b.Light.Days {
			heads = append(heads, strings.ReplaceAll(d.Date, " ", NoBreak))
		}
		return heads
	}
	return nil
}

// LightRows are the hours of direct sun on each bed, and last the day's length.
func LightRows(a *siting.Assessment) [][]string {
	var rows [][]string
	var day []string
	for _, b := range a.Beds {
		if b.Light == nil {
			continue
		}
		row := []string{b.Name}
		day = []string{"the whole day"}
		for _, d := range b.Light.Days {
			row = append(row, sunHours(d.Hours))
			day = append(day, fmt.Sprintf("%.1f", d.DayLength))
		}
		rows = append(rows, row)
	}
	if rows != nil {
		rows = append(rows, day)
	}
	return rows
}

// sunHours is hours to a tenth, with the band where it shows.
func sunHours(e geodata.Estimate) string {
	value, low, high := fmt.Sprintf("%.1f", e.Value), fmt.Sprintf("%.1f", e.Low), fmt.Sprintf("%.1f", e.High)
	if low == high {
		return value
	}
	return value + " (" + low + " to " + high + ")"
}

// LightSaid says what the sun hours rest on, or why there are none.
func (w Words) LightSaid(a *siting.Assessment) []Item {
	l := a.Light
	if l.Latitude == nil {
		if l.Reason == "" {
			return nil
		}
		return append([]Item{{"Sun hours", sentence("none: " + w.Prose(l.Reason))}}, w.toCome(a)...)
	}
	out := []Item{{"What they are", sentence(w.Prose(l.Note))}, {"In the sun's way", sentence(strings.Join(l.Counted, ", "))}}
	if len(l.LeftOut) > 0 {
		out = append(out, Item{"Left out", sentence(strings.Join(l.LeftOut, "; "))})
	}
	return append(out, w.toCome(a)...)
}

// toCome says where tall things that are still to come would leave the beds their
// sun.
func (w Words) toCome(a *siting.Assessment) []Item {
	var out []Item
	for _, t := range a.ToCome {
		out = append(out, Item{"Still to come", sentence(w.Prose(t.Said))})
	}
	return out
}
