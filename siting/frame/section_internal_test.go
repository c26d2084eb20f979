package frame

import (
	"testing"

	"crossfall/siting/soil"

	"github.com/stretchr/testify/assert"
)

func TestStackFor(t *testing.T) {
	sale := []float64{.15, .175, .20, .225}
	for _, c := range []struct{ needed, total float64 }{
		{.10, .15}, {.15, .15}, {.16, .175}, {.225, .225}, {.226, .30}, {.259, .30}, {.31, .325}, {.44, .45},
	} {
		got := stackFor(sale, c.needed)
		assert.InDelta(t, c.total, total(got), 1e-9, "%v", c.needed)
	}
	assert.Equal(t, []float64{.225, .15}, stackFor(sale, .36), "the higher board at the bottom")
	assert.Len(t, stackFor([]float64{.05}, .42), 9)
	assert.Equal(t, []float64{.15, .175, .20, .225}, sale, "the offer is left as it was")
}

// A board of half the height at the bottom carries three quarters of a
// triangular load; a lake behind the board leaves the same share.
func TestLowerShare(t *testing.T) {
	f, _ := soil.FillNamed(soil.DefaultFill)
	assert.InDelta(t, .75, Drained(f).lowerShare(.30, .15, 0), 1e-9)
	assert.InDelta(t, .75, Blocked(f).lowerShare(.30, .15, 0), 1e-9)
	assert.Greater(t, Winter(f).lowerShare(.30, .15, 0), .75, "water stands behind the lower board only")
	assert.Equal(t, 1.0, Winter(f).lowerShare(.30, .30, 0))
	assert.Equal(t, 0.0, Winter(f).lowerShare(.30, 0, 0))
}

// Depths go up to the next 20 mm, a default of ours.
func TestRoundUp(t *testing.T) {
	for in, want := range map[float64]float64{.15: .16, .18: .18, .184: .20, .2000001: .22, .30: .30} {
		assert.InDelta(t, want, roundUp(in), 1e-12, "%v", in)
	}
}

func TestWords(t *testing.T) {
	assert.Equal(t, "12.4 % (over 10 %)", overPercent(.1237, .10))
	assert.Equal(t, "10.02 % (over 10 %)", overPercent(.1002, .10))
	assert.Equal(t, "301 mm (over 300 mm)", overMillimetres(.3007, .30))
	assert.Equal(t, "300.2 mm (over 300 mm)", overMillimetres(.3002, .30))
	assert.Equal(t, "1.9", under(1.999, 2))
	assert.Equal(t, "under 0.1", under(.04, 2))
	assert.Equal(t, "0", decimals(-.0001, 1))
	assert.Equal(t, "330", tens(333))
}
