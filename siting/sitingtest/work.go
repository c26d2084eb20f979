package sitingtest

import (
	"time"

	"crossfall/geodata"
	"crossfall/siting/firstwinter"
)

// orderOfWork is a short one, with a weed, a covered bed and one that is not.
func orderOfWork() firstwinter.Plan {
	share := 61.1
	covered := geodata.Estimate{Value: 12, Low: 6, High: 18}
	return firstwinter.Plan{
		Season: firstwinter.Season{First: time.October, Last: time.March, Share: &share, Why: "the wettest six months in a row by the monthly rain, with 61 % of the year's"},
		Steps: []firstwinter.Step{
			{First: time.July, Last: time.August, Year: 1, What: "let the edges in, firm the ground back against both sides, and drive the pegs",
				Why: "a slot cut in wet ground smears and does not grip", Beds: []string{"Bed 2", "Bed 3"}},
			{First: time.October, Last: time.March, Year: 1, What: "leave off while a boot leaves a print that fills with water", Why: "wet turf tears and slides",
				Beds: []string{}, Source: firstwinter.CommonPractice},
			{First: time.April, Last: time.May, Year: 2, What: "top up the compost", Why: "25 to 50 mm a year keep it up", Beds: []string{}, Source: firstwinter.CommonPractice},
		},
		Covers: []firstwinter.Cover{
			{Bed: "Bed 1", Cardboard: 2, Layers: 3, Months: &covered, LiftMonth: time.September, LiftYear: 2, Against: []string{"couch grass"}},
			{Bed: "Bed 2", Cardboard: 1, Against: []string{}},
		},
		Weeds: []firstwinter.Met{{Common: "couch grass", Botanical: "Elymus repens", Spreads: "by creeping stems under the ground, mostly in the top 150 mm",
			First: "mow it as low as it goes", Cardboard: 2, Layers: 3, Months: &covered, Source: firstwinter.CommonPractice}},
		Wet: []firstwinter.WetLoad{{Bed: "Bed 1", Rise: 9, Said: "the way rises 9 %: on wet ground no more than 15 to 28 kg of compost in a load"}},
	}
}
