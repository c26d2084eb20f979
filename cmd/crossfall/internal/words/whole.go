package words

import (
	"regexp"
	"sync"
)

// figure finds the space inside a figure: between a number and its unit, or
// between feet, inches and their fraction. A line must not end there.
var figure = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(\d) (%|mm\b|m\b|m²|m³|mm/h|kg\b|lb\b|in\b|ft\b|litres\b|cubic\b|square\b|\d+/\d)|(\bft) (\d)`)
})

// NoBreak is the no-break space that stands inside a figure kept whole.
const NoBreak = "\u00a0"

// Whole keeps the figures of a text on one line. It goes over the text twice,
// as neighbouring figures share a digit.
func Whole(t string) string {
	for range 2 {
		t = figure().ReplaceAllString(t, "$1$3"+NoBreak+"$2$4")
	}
	return t
}
