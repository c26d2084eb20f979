package geodata

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Unit is a unit of length, as metres in one of it.
type Unit float64

// The units of length that people write. The international inch is 25.4 mm
// exactly (international yard and pound agreement, 1959); the United States
// survey foot is 1200/3937 m and differs from the foot by 2 parts in a million.
const (
	Metre      Unit = 1
	Centimetre Unit = 0.01
	Millimetre Unit = 0.001
	Inch       Unit = 0.0254
	Foot       Unit = 0.3048
	Yard       Unit = 0.9144
	SurveyFoot Unit = 1200.0 / 3937
)

// UnitNamed finds a unit of length by the word or sign that people write,
// whatever its case.
func UnitNamed(word string) (Unit, bool) {
	switch strings.ToLower(word) {
	case "m", "metre", "metres", "meter", "meters":
		return Metre, true
	case "cm", "centimetre", "centimetres", "centimeter", "centimeters":
		return Centimetre, true
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
		return Millimetre, true
	case "in", "inch", "inches", `"`:
		return Inch, true
	case "ft", "foot", "feet", "'":
		return Foot, true
	case "yd", "yard", "yards":
		return Yard, true
	case "us ft", "usft", "us survey foot", "us survey feet", "us-ft":
		return SurveyFoot, true
	}
	return 0, false
}

// LengthError says why a text is not a length.
type LengthError struct {
	Text    string // as it was read
	Problem string
	Want    string // what would be right
}

// Error gives the text, what is wrong and what would be right.
func (e *LengthError) Error() string {
	return fmt.Sprintf("%q %s; %s", e.Text, e.Problem, e.Want)
}

// ParseLength reads a length as people write it and gives metres: "1.25 m",
// "30 cm", "180 mm", 4'6", "4 ft 6 1/2 in", "12'", "7 1/8 in", with straight,
// curly or prime marks, fractions over 2 to 64 or as one character, and any
// Unicode minus sign. A bare number is in the unit bare; when bare is 0 a bare
// number is refused. "4-6" is refused: it may be feet and inches or a range.
// The error is a *LengthError.
func ParseLength(text string, bare Unit) (float64, error) {
	metres, _, err := ReadLength(text, bare)
	return metres, err
}

// ReadLength is ParseLength with a note, empty when there is none, on what was
// accepted but may be a slip (14 inches beside feet).
func ReadLength(text string, bare Unit) (metres float64, note string, err error) {
	s := lengthScanner{rest: plainMarks(text)}
	negative := s.sign()
	metres, note, problem := s.length(bare)
	switch {
	case problem != "":
		return 0, "", lengthError(text, problem, bare)
	case math.IsInf(metres, 0):
		return 0, "", lengthError(text, "is too large for a length", bare)
	case negative && metres != 0:
		metres = -metres
	}
	return metres, note, nil
}

func lengthError(text, problem string, bare Unit) error {
	want := `write a number with its unit, such as 1.25 m or 4'6"`
	if bare != 0 {
		want = `write a number, such as 1.25, or a length with its unit, such as 4'6"`
	}
	return &LengthError{Text: text, Problem: problem, Want: want}
}

// plainMarks replaces curly quotes, primes, wide blanks and Unicode dashes by
// the plain signs of the grammar.
func plainMarks(text string) string {
	plain := strings.Map(func(r rune) rune {
		switch r {
		case '\u2032', '\u2018', '\u2019', '\u02b9', '\u00b4':
			return '\''
		case '\u2033', '\u201c', '\u201d', '\u02ba':
			return '"'
		case '\u2212', '\u2010', '\u2011', '\u2012', '\u2013', '\ufe63', '\uff0d':
			return '-'
		case '\u2044':
			return '/'
		case '\u00a0', '\u2009', '\u202f', '\u2007', '\t':
			return ' '
		}
		return r
	}, text)
	return strings.TrimSpace(strings.ReplaceAll(plain, "''", `"`))
}

// lengthScanner reads a length from its start; rest is what is not read yet.
type lengthScanner struct{ rest string }

// length reads the whole text. The problem is empty when it is a length.
func (s *lengthScanner) length(bare Unit) (metres float64, note, problem string) {
	if s.rest == "" {
		return 0, "", "is empty"
	}
	first, problem := s.quantity()
	if problem != "" {
		return 0, "", problem
	}
	unit, named := s.unit()
	switch {
	case !named && s.rest == "" && bare == 0:
		return 0, "", "has no unit"
	case !named && s.rest == "" && first.fraction && bare != Inch && bare != Foot:
		return 0, "", "is a fraction without a unit"
	case !named && s.rest == "":
		return first.value * float64(bare), "", ""
	case !named:
		return 0, "", s.unread()
	case first.fraction && unit != Inch && unit != Foot:
		return 0, "", "has a fraction with a unit that is not feet or inches"
	case s.rest == "":
		return first.value * float64(unit), "", ""
	case unit != Foot:
		return 0, "", s.unread()
	}
	return s.inches(first)
}

// inches reads what follows the feet.
func (s *lengthScanner) inches(feet quantity) (metres float64, note, problem string) {
	if !feet.whole {
		return 0, "", "has a decimal or a fraction of a foot before the inches"
	}
	s.separator()
	inches, problem := s.quantity()
	if problem != "" {
		return 0, "", problem
	}
	unit, named := s.unit()
	if named && unit != Inch || s.rest != "" {
		return 0, "", "goes on after the inches"
	}
	if inches.value >= 12 {
		note = fmt.Sprintf("%s inches beside feet: taken as they stand", strconv.FormatFloat(inches.value, 'f', -1, 64))
	}
	return feet.value*float64(Foot) + inches.value*float64(Inch), note, ""
}

// unread says what is wrong with what follows a number.
func (s *lengthScanner) unread() string {
	if strings.HasPrefix(s.rest, "-") {
		return "may be feet and inches or a range"
	}
	return "is not a length"
}

func (s *lengthScanner) blanks() { s.rest = strings.TrimLeft(s.rest, " ") }

// sign reads a leading + or -.
func (s *lengthScanner) sign() (negative bool) {
	if s.rest != "" && (s.rest[0] == '-' || s.rest[0] == '+') {
		negative = s.rest[0] == '-'
		s.rest = s.rest[1:]
		s.blanks()
	}
	return negative
}

// separator reads what may stand between feet and inches.
func (s *lengthScanner) separator() {
	s.blanks()
	for _, sep := range []string{"-", ",", "and"} {
		if after, ok := strings.CutPrefix(strings.ToLower(s.rest), sep); ok {
			s.rest = s.rest[len(s.rest)-len(after):]
			s.blanks()
			return
		}
	}
}

// unit reads a unit's word or sign; named is false, and nothing is read, when
// none stands there.
func (s *lengthScanner) unit() (u Unit, named bool) {
	s.blanks()
	if s.rest == "" {
		return 0, false
	}
	n := 1
	if isLetter(s.rest[0]) {
		for n < len(s.rest) && isLetter(s.rest[n]) {
			n++
		}
	}
	u, named = UnitNamed(s.rest[:n])
	if !named {
		return 0, false
	}
	s.rest = strings.TrimPrefix(s.rest[n:], ".") // ft. and in.
	s.blanks()
	return u, true
}

// quantity is one number of a length.
type quantity struct {
	value    float64
	whole    bool // digits only
	fraction bool // n/d, alone or after a whole number
}

// vulgar are the fractions that are one character, in eighths.
var vulgar = []struct {
	sign    string
	eighths float64
}{{"½", 4}, {"¼", 2}, {"¾", 6}, {"⅛", 1}, {"⅜", 3}, {"⅝", 5}, {"⅞", 7}}

// quantity reads a number: whole, decimal, a fraction, or a whole number and a
// fraction.
func (s *lengthScanner) quantity() (q quantity, problem string) {
	if s.vulgarFraction(&q) {
		return q, ""
	}
	text := s.number()
	if text == "" {
		return q, "is not a number"
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return q, "is too large for a length"
	}
	q.value, q.whole = v, allDigits(text)
	if !q.whole {
		return q, ""
	}
	if strings.HasPrefix(s.rest, "/") {
		q = quantity{}
		return q, s.over(text, &q)
	}
	before := s.rest
	s.blanks()
	if s.vulgarFraction(&q) {
		return q, ""
	}
	if n := s.number(); n != "" && allDigits(n) && strings.HasPrefix(s.rest, "/") {
		return q, s.over(n, &q)
	}
	s.rest = before
	return q, ""
}

// vulgarFraction adds a fraction that is one character.
func (s *lengthScanner) vulgarFraction(q *quantity) bool {
	for _, v := range vulgar {
		if after, ok := strings.CutPrefix(s.rest, v.sign); ok {
			s.rest = after
			q.value += v.eighths / 8
			q.whole, q.fraction = false, true
			return true
		}
	}
	return false
}

// over adds numerator/d, where /d is still to be read.
func (s *lengthScanner) over(numerator string, q *quantity) (problem string) {
	s.rest = s.rest[1:]
	below := s.number()
	n, errN := strconv.ParseFloat(numerator, 64)
	d, errD := strconv.ParseFloat(below, 64)
	switch {
	case errN != nil || errD != nil || !allDigits(below):
		return "has a fraction that cannot be read"
	case d != 2 && d != 4 && d != 8 && d != 16 && d != 32 && d != 64:
		return "has a fraction that is not over 2, 4, 8, 16, 32 or 64"
	case n >= d:
		return "has a fraction that is not under 1"
	}
	q.value += n / d
	q.whole, q.fraction = false, true
	return ""
}

// number cuts off digits with at most one point and an exponent.
func (s *lengthScanner) number() string {
	n, points, digits := 0, 0, 0
	for n < len(s.rest) && (isDigit(s.rest[n]) || s.rest[n] == '.' && points == 0) {
		if isDigit(s.rest[n]) {
			digits++
		} else {
			points++
		}
		n++
	}
	if digits == 0 {
		return ""
	}
	n += exponent(s.rest[n:])
	text := s.rest[:n]
	s.rest = s.rest[n:]
	return text
}

// exponent is the length of an exponent such as e-05 at the start of the text.
func exponent(text string) int {
	if text == "" || text[0] != 'e' && text[0] != 'E' {
		return 0
	}
	n := 1
	if n < len(text) && (text[n] == '-' || text[n] == '+') {
		n++
	}
	from := n
	for n < len(text) && isDigit(text[n]) {
		n++
	}
	if n == from {
		return 0
	}
	return n
}

func isDigit(b byte) bool  { return b >= '0' && b <= '9' }
func isLetter(b byte) bool { return b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z' }

func allDigits(text string) bool {
	for i := range len(text) {
		if !isDigit(text[i]) {
			return false
		}
	}
	return text != ""
}
