package words

import (
	"fmt"
	"math"
	"strings"
	"time"

	"crossfall/geodata"
	"crossfall/siting"
)

// StormsAsked names storms by their return periods.
func StormsAsked(years []float64) string {
	if len(years) == 1 {
		return fmt.Sprintf("the storm met once in %.0f years", years[0])
	}
	var all []string
	for _, y := range years {
		all = append(all, fmt.Sprintf("%.0f", y))
	}
	last := len(all) - 1
	return "the storms met once in " + strings.Join(all[:last], ", ") + " and " + all[last] + " years"
}

// Lasting is a time to wait.
func Lasting(d time.Duration) string {
	if d < 90*time.Second {
		return fmt.Sprintf("%.0f seconds", math.Max(1, d.Seconds()))
	}
	return fmt.Sprintf("%.0f minutes", d.Minutes())
}

// StormItems are what one storm over the plot did.
func (w Words) StormItems(s siting.StormPlayed) []Item {
	items := []Item{{"Storm", sentence(w.Prose(s.Said()[0]))}}
	if s.Runs == 0 {
		return items
	}
	for i, t := range s.Said()[1:] {
		name := ""
		if i == 0 {
			name = "In short"
		}
		items = append(items, Item{name, sentence(w.Prose(t))})
	}
	items = append(items,
		Item{"Leaves, with the beds", sentence(w.leaves(s.WithBeds))},
		Item{"Leaves, without them", sentence(w.leaves(s.Without))})
	if q := s.WithBeds.Quickest; q != nil {
		items = append(items, Item{"Quickest with the beds", sentence(w.placed(q, "%.2f"))})
	}
	if d := s.WithBeds.Deepest; d != nil {
		items = append(items, Item{"Deepest with the beds", sentence(w.placed(d, "%.0f"))})
	}
	return items
}

// placed tells a square's mean and where it is.
func (w Words) placed(p *siting.StormPlace, digits string) string {
	return w.Prose(fmt.Sprintf(digits+" to "+digits+" %s, on the mean over half a metre, at %.1f m east and %.1f m north",
		p.Value.Low, p.Value.High, p.Unit, p.At[0], p.At[1]))
}

// leaves tells how much water leaves by which side.
func (w Words) leaves(s siting.StormWater) string {
	var all []string
	for _, side := range s.Leaves {
		if side.Volume.High >= 0.005 {
			all = append(all, "by the "+side.Side+" "+w.volume(side.Volume))
		}
	}
	if len(all) == 0 {
		return "no water leaves"
	}
	return strings.Join(all, ", ") + "; of " + w.volume(geodata.Exactly(s.Rain.Value+s.RunOn.Value)) + " that came"
}

func (w Words) volume(e geodata.Estimate) string {
	if e.Low == e.High {
		return w.Prose(fmt.Sprintf("%.2f m³", e.Value))
	}
	return w.Prose(fmt.Sprintf("%.2f to %.2f m³", e.Low, e.High))
}

// StormBoardHeads are the heads of the table of boards.
func (w Words) StormBoardHeads() []string {
	unit := "mm"
	if w.Units == geodata.FeetAndInch {
		unit = "in"
	}
	return []string{"Board", "Water against it, " + unit, "Runs over, of 9", "First over", "Seepage"}
}

// StormBoardRows are the boards that water stands against or runs over.
func (w Words) StormBoardRows(s siting.StormPlayed) [][]string {
	var rows [][]string
	for _, b := range s.Boards {
		if b.Stood.High < 5 && b.Overtops == 0 {
			continue
		}
		low, high := fmt.Sprintf("%.0f", b.Stood.Low), fmt.Sprintf("%.0f", b.Stood.High)
		if w.Units == geodata.FeetAndInch {
			low, high = fmt.Sprintf("%.1f", b.Stood.Low/25.4), fmt.Sprintf("%.1f", b.Stood.High/25.4)
		}
		over, seeps := "", ""
		if b.First != nil {
			over = fmt.Sprintf("%.0f minutes, %s of rain", *b.First, w.Prose(fmt.Sprintf("%.0f mm", *b.RainUntil)))
		}
		if b.Seepage {
			seeps = "likely"
		}
		rows = append(rows, []string{b.Bed + ", " + b.Side, low + " to " + high, fmt.Sprint(b.Overtops), over, seeps})
	}
	return rows
}

// StormClaims are what may be read from a storm and what may not.
func (w Words) StormClaims(s *siting.Storm) []Item {
	var items []Item
	add := func(name string, all []string) {
		for i, t := range all {
			if i > 0 {
				name = ""
			}
			items = append(items, Item{name, sentence(w.Prose(t))})
		}
	}
	add("Played with", s.Assumed)
	add("May be read from it", s.Claimed)
	add("May not", s.NotClaimed)
	return items
}
