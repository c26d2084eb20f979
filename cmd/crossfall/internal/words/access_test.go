package words_test

import (
	"testing"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/access"

	"github.com/stretchr/testify/assert"
)

func TestAccess(t *testing.T) {
	climb, walked := geodata.Estimate{Value: .62, Low: .55, High: .68}, geodata.Estimate{Value: 1472.9, Low: 1426, High: 1609}
	a := &siting.Assessment{
		Carrying: siting.Carrying{From: []siting.CarryFrom{{Said: "the gate"}}, Walked: &walked, Climbed: &climb},
		Beds: []siting.Bed{
			{Name: "Bed 1", Access: &siting.BedAccess{
				By: access.ByBarrow, Length: 8.16, Climb: climb, SteepestRise: geodata.Estimate{Value: 8.2, Low: 5.4, High: 11.1},
				Push: geodata.Exactly(75), Loads: geodata.Estimate{Value: 18, Low: 17, High: 19}, Advice: []string{"make each turn level, 1.2 m or longer"},
			}},
			{Name: "Bed 2", Access: &siting.BedAccess{By: access.OnFoot, Length: 12, ByHand: 3.4, Said: "by barrow for 9 m", Loads: geodata.Exactly(9)}},
			{Name: "Bed 3", Access: &siting.BedAccess{By: access.NoWay, Said: "nobody gets to it", Loads: geodata.Exactly(9)}},
			{Name: "Bed 4"}, // not built
		},
	}
	rows := words.Words{}.AccessRows(a)
	assert.Len(t, words.Words{}.AccessHeads(), len(rows[0]))
	assert.Equal(t, []string{"Bed 1", "barrow", "8 m", "0.6 m (0.6 to 0.7)", "8.2 % (5.4 to 11.1)", "75 newtons", "18 (17 to 19)"}, rows[0])
	assert.Equal(t, "barrow, then 3 m on foot", rows[1][1])
	assert.Equal(t, []string{"Bed 3", "nobody gets there", "", "", "", "", "9"}, rows[2])
	assert.Len(t, rows, 3)
	said := words.Words{}.AccessSaid(a)
	assert.Contains(t, said, words.Item{Name: "The whole job", Value: "1500 m (1400 to 1600) walked, there and back, and 1 m climbed with full loads."})
	assert.Contains(t, said, words.Item{Name: "Bed 3", Value: "Nobody gets to it."})

	assert.Contains(t, words.Words{}.Decision(a), "Nobody gets to Bed 3, and no barrow gets to Bed 2 as drawn: see how compost gets to the beds.")

	feet := words.Words{Units: geodata.FeetAndInch}
	assert.Equal(t, []string{"27 ft", "2 ft"}, feet.AccessRows(a)[0][2:4])
	assert.Contains(t, feet.AccessSaid(a), words.Item{Name: "Bed 1", Value: "Make each turn level, 3 ft 11 1/4 in or longer."})
	assert.Empty(t, words.Words{}.AccessRows(&siting.Assessment{}))
}
