package report

import (
	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
)

// grid is a table of texts.
type grid struct {
	Heads []string
	Rows  [][]string
}

// waterPart is what winter rain does on the plot.
type waterPart struct {
	Short                                   []string
	Rain                                    []words.Item
	Storms, Days                            grid
	DaysSaid                                []words.Item
	Paths, Turned, Crossings, Ponds, Places []words.Item
	Beds                                    []waterBed
	Loss, Advice                            []words.Item
	Played                                  []stormPart
	Claims                                  []words.Item
}

// waterBed is what it does at one bed.
type waterBed struct {
	Name, Edge, Boarding string
	Draining             []words.Item
	Sheet, Risk          grid
}

func waterOf(w words.Words, a *siting.Assessment) waterPart {
	part := waterPart{
		Short: w.WaterShort(a), Rain: w.RainSaid(a), Storms: grid{words.StormHeads(), w.StormRows(a.Water.Storms)},
		Days: grid{words.DayHeads(), w.DayRows(a.Water.Days)}, DaysSaid: w.DayItems(a.Water.Days),
		Paths: w.PathItems(a.Water.Paths), Turned: w.TurnedItems(a), Crossings: w.CrossingItems(a),
		Ponds: w.HollowItems(a.Ground.Hollows), Places: w.PlaceItems(a), Loss: w.LossItems(a), Advice: w.AdviceItems(a),
	}
	part.Played, part.Claims = stormsOf(w, a)
	for _, b := range a.Beds {
		if b.Water == nil {
			continue
		}
		part.Beds = append(part.Beds, waterBed{
			Name: b.Name, Edge: string(b.Edge), Boarding: w.Prose(b.Worth), Draining: w.Draining(b),
			Sheet: grid{w.EdgeWaterHeads(), w.EdgeWaterRows(b)}, Risk: grid{words.RiskHeads(), w.RiskRows(b)},
		})
	}
	return part
}
