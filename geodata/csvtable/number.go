package csvtable

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"crossfall/geodata"
)

// CommaMeaning says what a comma inside a number stands for.
type CommaMeaning uint8

// The meanings of a comma in the numbers of one table.
const (
	CommaNone      CommaMeaning = iota // no number has one
	CommaDecimal                       // 1,25 is one and a quarter
	CommaThousands                     // 1,250.5 is over a thousand
	CommaUnclear                       // both could be meant
)

// commaMeaning settles for the whole table what commas in numbers mean. With
// decimal points elsewhere, or two commas in a number, they part thousands.
// Without, they are decimal commas, but behind the delimiter comma (in quotes)
// figures such as "1,234" stay unclear.
func commaMeaning(t *Table) CommaMeaning {
	commas, points, otherThanThree, notGroups, twice := 0, 0, 0, 0, 0
	for _, r := range t.Rows {
		for _, c := range r.Cells {
			text := numeral(c.Text)
			if !looksNumeric(text) {
				continue
			}
			i, j := strings.LastIndexByte(text, ','), strings.LastIndexByte(text, '.')
			if j >= 0 && j > i {
				points++
			}
			if i < 0 {
				continue
			}
			commas++
			if strings.Count(text, ",") > 1 {
				twice++
			}
			if digitsAfter(text, i) != 3 {
				otherThanThree++
			}
			if !grouped(text, ',') {
				notGroups++
			}
		}
	}
	switch {
	case commas == 0:
		return CommaNone
	case (points > 0 || twice > 0) && notGroups == 0:
		return CommaThousands
	case points > 0 || twice > 0:
		return CommaUnclear
	case t.Delimiter != ',' || otherThanThree > 0:
		return CommaDecimal
	}
	return CommaUnclear
}

// digitsAfter counts the digits behind place i.
func digitsAfter(text string, i int) int {
	n := 0
	for i+1+n < len(text) && text[i+1+n] >= '0' && text[i+1+n] <= '9' {
		n++
	}
	return n
}

// grouped tells whether every mark before a decimal sign is followed by three
// digits, and the first is preceded by one to three.
func grouped(text string, mark byte) bool {
	text = strings.TrimLeft(text, "+-")
	first := strings.IndexByte(text, mark)
	if first < 1 || first > 3 {
		return false
	}
	for i := range len(text) {
		if text[i] == mark && digitsAfter(text, i) != 3 {
			return false
		}
	}
	return true
}

// numeral takes out blanks that part thousands and makes any minus sign plain.
func numeral(text string) string {
	text = strings.TrimSpace(text)
	if plainASCII(text) { // nearly every cell: nothing to take out
		return text
	}
	runes := []rune(text)
	var b strings.Builder
	for i, r := range runes {
		switch {
		case partsThousands(r) && i > 0 && i+1 < len(runes) && unicode.IsDigit(runes[i-1]) && unicode.IsDigit(runes[i+1]):
		case r == '\u2212' || r == '\u2013' && i == 0:
			b.WriteByte('-')
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// plainASCII tells whether a text has no byte outside ASCII.
func plainASCII(text string) bool {
	for i := range len(text) {
		if text[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

// partsThousands tells whether a blank is of the kinds that programs put
// between thousands: no-break, thin, narrow no-break, figure blank.
func partsThousands(r rune) bool {
	return r == '\u00a0' || r == '\u2009' || r == '\u202f' || r == '\u2007'
}

var withoutMarks = strings.NewReplacer(",", "", ".", "")

// looksNumeric tells whether a text begins as a number and holds no more than
// a number with its unit may.
func looksNumeric(text string) bool {
	text = strings.TrimLeft(numeral(text), "+-")
	if text == "" || !(text[0] >= '0' && text[0] <= '9' || text[0] == '.' && len(text) > 1 || strings.ContainsRune("½¼¾⅛⅜⅝⅞", []rune(text)[0])) {
		return false
	}
	if _, err := strconv.ParseFloat(withoutMarks.Replace(text), 64); err == nil {
		return true
	}
	_, err := geodata.ParseLength(strings.ReplaceAll(text, ",", "."), geodata.Metre)
	return err == nil
}

// plain is the cell's text with the table's meaning of commas applied. The
// problem is empty when it could be.
func (t *Table) plain(text string) (plain, problem string) {
	text = numeral(text)
	if !strings.Contains(text, ",") || !looksNumeric(text) {
		return text, ""
	}
	switch t.Commas {
	case CommaDecimal:
		if strings.Contains(text, ".") && grouped(text[:strings.IndexByte(text, ',')], '.') {
			text = strings.ReplaceAll(text, ".", "")
		}
		return strings.ReplaceAll(text, ",", "."), ""
	case CommaThousands:
		return strings.ReplaceAll(text, ",", ""), ""
	}
	return "", "has a comma that may part thousands or decimals"
}

// NumberError says why a cell is not the number that belongs there.
type NumberError struct {
	Problem string // to be put behind the name of the column
	Want    string
}

// Error gives the problem and what would be right.
func (e *NumberError) Error() string { return e.Problem + "; " + e.Want }

const writePoint = "write the number with a point for decimals and no commas"

// Number reads a cell as a plain finite number. The error is a *NumberError.
func (t *Table) Number(c Cell) (float64, error) {
	text, problem := t.plain(c.Text)
	if problem != "" {
		return 0, &NumberError{problem, writePoint}
	}
	if strings.ContainsAny(text, "xXpP_iInN") { // hexadecimal, 1_000, inf, nan
		return 0, &NumberError{"is not a number", "write a number, such as 1.25"}
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, &NumberError{"is not a number", "write a number, such as 1.25"}
	}
	return v, nil
}

// Length reads a cell as a length and gives metres; a bare number is in the
// unit bare. The note is empty unless something was accepted that may be a
// slip. The error is a *NumberError.
func (t *Table) Length(c Cell, bare geodata.Unit) (metres float64, note string, err error) {
	text, problem := t.plain(c.Text)
	if problem != "" {
		return 0, "", &NumberError{problem, writePoint}
	}
	metres, note, err = geodata.ReadLength(text, bare)
	if err != nil {
		problem, want := "is not a number", "write a number, such as 1.25"
		if e, ok := err.(*geodata.LengthError); ok {
			problem, want = e.Problem, e.Want
		}
		return 0, "", &NumberError{problem, want}
	}
	return metres, note, nil
}
