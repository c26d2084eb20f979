package takeoff

import (
	"math"

	"crossfall/geodata"
)

// Horizon is the time over which renewals are counted, years; a default of ours.
const Horizon = 10.0

// Renewal is what must be bought again over the years after the first building,
// with a band over the life of the timber.
type Renewal struct {
	Years       float64           `json:"years"`
	BoardLength geodata.Estimate  `json:"board_length_m"` // of pieces, without waste
	Pegs        geodata.Estimate  `json:"pegs"`
	TopUp       geodata.Estimate  `json:"top_up_m3"` // of compost as laid
	Cost        *geodata.Estimate `json:"cost"`      // null unless all three have a price
}

// Renewals is how often something of a life is bought again within a number of
// years: once less than the lives begun in them. A life of 0 is not known: 0.
func Renewals(years, life float64) float64 {
	if !(life > 0) {
		return 0
	}
	return math.Max(0, math.Ceil(years/life-1e-9)-1)
}

// over is the renewals at both ends of a life.
func over(life geodata.Estimate) geodata.Estimate {
	return geodata.Estimate{Value: Renewals(Horizon, life.Value), Low: Renewals(Horizon, life.High), High: Renewals(Horizon, life.Low)}
}

// countRenewals fills in what Horizon asks besides the first building.
func countRenewals(list *List, said *lines, beds []BedInput, site geodata.Site) {
	if len(beds) == 0 {
		return
	}
	r := Renewal{Years: Horizon, TopUp: list.YearlyTopUp.Times(Horizon)}
	o := offerOf(site, nil)
	for _, b := range beds {
		pieces, err := wanted(b, o)
		if err != nil {
			return
		}
		length := 0.0
		for _, p := range pieces {
			length += p.Length / 1000
		}
		r.BoardLength = plus(r.BoardLength, over(b.BoardLife).Times(length))
		r.Pegs = plus(r.Pegs, over(b.PegLife).Times(float64(b.Pegs)))
	}
	if board, peg, compost := site.Boards.PricePerM, site.Pegs.Price, site.Compost.PricePerM3; board != nil && peg != nil && compost != nil {
		cost := plus(plus(r.BoardLength.Times(*board), r.Pegs.Times(*peg)), r.TopUp.Times(orderFactor(site)**compost))
		r.Cost = &cost
	}
	said.add("over %.0f years boards and pegs are bought again when they are worn; waste and what prices will be are left out", Horizon)
	list.Renewal = &r
}

func plus(a, b geodata.Estimate) geodata.Estimate {
	return geodata.Estimate{Value: a.Value + b.Value, Low: a.Low + b.Low, High: a.High + b.High}
}
