package geodata_test

import (
	"testing"

	"crossfall/geodata"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Distances worked by hand in the measure of Levenshtein 1966; kitten and sitting are 3
// apart.
func TestLettersApart(t *testing.T) {
	for _, c := range []struct {
		a, b  string
		apart int
	}{
		{"kitten", "sitting", 3}, {"", "abc", 3}, {"same", "same", 0}, {"cuont", "count", 1}, {"lenght", "length", 1}, {"é", "e", 1},
	} {
		assert.Equal(t, c.apart, geodata.LettersApart(c.a, c.b), "%s, %s", c.a, c.b)
		assert.Equal(t, c.apart, geodata.LettersApart(c.b, c.a), "the same both ways")
	}
}

func TestNearest(t *testing.T) {
	known := []string{"count", "length_m", "width_m", "assess"}
	assert.Equal(t, "count", geodata.Nearest("cuont", known))
	assert.Equal(t, "length_m", geodata.Nearest("LENGHT_M", known))
	assert.Equal(t, "assess", geodata.Nearest("asess", known))
	assert.Empty(t, geodata.Nearest("colour", known))
	assert.Empty(t, geodata.Nearest("", known))
}

func TestLettersApartIsADistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.StringN(0, 8, -1).Draw(t, "a"), rapid.StringN(0, 8, -1).Draw(t, "b")
		d := geodata.LettersApart(a, b)
		assert.Equal(t, a == b, d == 0)
		assert.LessOrEqual(t, d, max(len([]rune(a)), len([]rune(b))))
	})
}
