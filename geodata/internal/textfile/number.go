package textfile

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Number reads a number as programs write it, with a point for decimals and at
// most an exponent. What is not finite, and the spellings that only Go knows
// (0x1p4, 1_000), are no numbers.
func Number(text string) (float64, bool) {
	text = strings.TrimSpace(text)
	if text == "" || strings.Trim(text, "0123456789+-.eE") != "" || strings.ContainsAny(text, "xXpP_") {
		return 0, false
	}
	v, err := strconv.ParseFloat(text, 64)
	return v, err == nil && !math.IsInf(v, 0)
}

// Advice is what to do about a text that is not a number.
func Advice(text string) string {
	if strings.Contains(text, ",") {
		return "write a point for decimals, not a comma"
	}
	return "write a plain number, such as 27.93"
}

// Short is a piece of a file on one line, cut to what fits into a message.
func Short(text string) string {
	const most = 60
	if len(text) > 8*most { // before it is taken apart
		text = text[:8*most]
	}
	text = strings.ToValidUTF8(strings.Join(strings.Fields(text), " "), "")
	if utf8.RuneCountInString(text) > most {
		text = string([]rune(text)[:most]) + "..."
	}
	return text
}
