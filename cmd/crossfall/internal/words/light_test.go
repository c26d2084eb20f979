package words_test

import (
	"testing"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/geodata"
	"crossfall/siting"

	"github.com/stretchr/testify/assert"
)

func TestLight(t *testing.T) {
	latitude := 51.5
	a := &siting.Assessment{
		Light: siting.Light{Latitude: &latitude, Note: "hours of sun", Counted: []string{"hedge", "shed"}, LeftOut: []string{"ash: no height_m"}},
		Beds: []siting.Bed{{Name: "Bed 1", Light: &siting.BedLight{Days: []siting.SunHours{
			{Date: "21 March", Hours: geodata.Estimate{Value: 8.04, Low: 7.1, High: 9}, DayLength: 12},
			{Date: "21 June", Hours: geodata.Exactly(16.4), DayLength: 16.4},
		}}}, {Name: "Bed 2"}},
	}
	assert.Equal(t, []string{"Hours at", "21" + words.NoBreak + "March", "21" + words.NoBreak + "June"}, words.LightHeads(a))
	assert.Equal(t, [][]string{{"Bed 1", "8.0 (7.1 to 9.0)", "16.4"}, {"the whole day", "12.0", "16.4"}}, words.LightRows(a))
	assert.Len(t, words.Words{}.LightSaid(a), 3)
	a.Light = siting.Light{Reason: "no latitude is given"}
	a.Beds = nil
	assert.Empty(t, words.LightHeads(a))
	assert.Empty(t, words.LightRows(a))
	assert.Contains(t, words.Words{}.LightSaid(a)[0].Value, "no latitude is given")
	assert.Empty(t, words.Words{}.LightSaid(&siting.Assessment{}))
}
