package heightgrid

import (
	"bytes"
	"math"
	"strconv"
)

// tenTo are the powers of ten that a float64 holds exactly.
var tenTo = [...]float64{1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11,
	1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22}

// decimal reads a plain number: a sign, digits with at most one point or comma,
// an exponent. comma is true when it had a comma. It gives the float64 nearest
// to what is written: up to 15 digits with a power of ten that is held exactly
// need one rounding only (W. D. Clinger, How to Read Floating Point Numbers
// Accurately, 1990); all others go to strconv.
func decimal(word []byte) (v float64, comma, ok bool) {
	i := 0
	if i < len(word) && (word[i] == '-' || word[i] == '+') {
		i++
	}
	var digits uint64
	count, point := 0, -1
	for ; i < len(word); i++ {
		c := word[i]
		if d := c - '0'; d <= 9 {
			digits = digits*10 + uint64(d) // wraps around beyond 19 digits, where it is not used
			count++
			continue
		}
		if c != '.' && c != ',' || point >= 0 {
			break
		}
		point, comma = count, c == ','
	}
	if count == 0 {
		return 0, false, false
	}
	after := 0
	if point >= 0 {
		after = count - point
	}
	if i < len(word) || count > 15 || after > 22 {
		return slowDecimal(word, i, comma)
	}
	v = float64(digits) / tenTo[after]
	if word[0] == '-' {
		v = -v
	}
	return v, comma, true
}

// slowDecimal reads what is no short plain number; the digits end at i, where
// only an exponent may stand.
func slowDecimal(word []byte, i int, comma bool) (float64, bool, bool) {
	if i < len(word) && word[i] != 'e' && word[i] != 'E' || bytes.IndexByte(word, '_') >= 0 {
		return 0, false, false
	}
	text := string(word)
	if comma {
		text = string(bytes.Replace(word, []byte{','}, []byte{'.'}, 1))
	}
	v, err := strconv.ParseFloat(text, 64)
	return v, comma, err == nil && !math.IsInf(v, 0)
}

// isNothing tells whether a word stands for a missing number.
func isNothing(word []byte) bool {
	if len(word) > 9 {
		return false
	}
	switch string(bytes.ToLower(bytes.TrimLeft(word, "+-"))) {
	case "nan", "null", "na", "nodata", "inf", "infinity", "1.#qnan", "1.#ind", "1.#inf", "nan(ind)", "*":
		return true
	}
	return false
}
