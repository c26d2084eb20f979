package siting

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A gain too small for one decimal is told with more, and never as none.
func TestNarrowingTellsTheTwoApart(t *testing.T) {
	assert.Equal(t, "from ±4.0 to ±2.0 points of percent", settling{before: .02, after: .01}.narrowing(2))
	assert.Equal(t, "from ±0.11 to ±0.10 points of percent", settling{before: .00055, after: .00052}.narrowing(2))
	assert.Equal(t, "from ±0.104 to ±0.102 points of percent", settling{before: .00052, after: .00051}.narrowing(2))
}
