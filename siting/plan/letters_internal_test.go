package plan

import (
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// What is taken for plain letters is in the typeface.
func TestPlainLettersAreThere(t *testing.T) {
	for r := rune(0); r <= 0x180; r++ {
		if plainLetters(string(r)) {
			assert.True(t, hasLetter(r), "%q", r)
		}
	}
	for _, r := range "½°²³≤≥×→–—“”’…±−€ŁőАяΩ" {
		assert.True(t, hasLetter(r), "%q", r)
	}
}

func TestLetters(t *testing.T) {
	for _, tc := range []struct{ text, want, said string }{
		{"Zahrada u řeky, Ölmühle, Łódź", "Zahrada u řeky, Ölmühle, Łódź", ""},
		{"Сад и Κήπος", "Сад и Κήπος", ""},
		{"e\u0301tang", "étang", ""},                         // put together where the typeface has it
		{"Vườn nhà Thế", "Vuon nhà Thê", "without the mark"}, // Vietnamese
		{"x\u0301", "x", "without the mark"},
		{"ﬁeld\u00a0１\u2009m\u2011½", "ﬁeld\u00a01 m-½", ""},
		{"J⁻ᵀ", "J⁻T", ""},
		{"菜园", "[83DC][56ED]", "number in Unicode"},
		{"bed \u0661", "bed [0661]", "number in Unicode"}, // an Arabic figure
		{"Plot \U0001F331!", "Plot !", "left out"},
		{"a\u200db\u200f\ufeff", "ab", ""},
		{"a\x00b\xffc\td", "a bc d", "left out"},
	} {
		var l Letters
		assert.Equal(t, tc.want, l.Text(tc.text), "%q", tc.text)
		if tc.said == "" {
			assert.Empty(t, l.Said(), "%q", tc.text)
		} else {
			assert.Contains(t, l.Said(), tc.said, "%q", tc.text)
		}
		assert.Equal(t, tc.want, (*Letters)(nil).Text(tc.text))
	}
}

// Whatever is typed, nothing is left that would show as a box; and what is written
// stays when it is written again.
func TestNoBoxes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.String(), rapid.StringOf(rapid.Rune())).Draw(t, "text")
		var l Letters
		got := l.Text(text)
		for _, r := range got {
			if !hasLetter(r) {
				t.Fatalf("%q", r)
			}
		}
		if !utf8.ValidString(got) || l.Text(got) != got {
			t.Fatalf("%q and %q", got, l.Text(got))
		}
	})
}
