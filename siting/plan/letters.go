package plan

import (
	"fmt"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/text/unicode/norm"
)

// Letters writes texts in the letters of the typeface, which has those of the Latin,
// Greek and Cyrillic scripts of Europe, and keeps what it could not write as it is.
// The zero value is ready; a nil one writes and keeps nothing.
type Letters struct {
	bare, numbered, left bool
}

// Text is a text in letters that the typeface has. Of other letters the nearest one
// is taken, which is what they are made of without their marks; where there is none
// the letter's number in Unicode stands in brackets, so that two names remain two.
// Signs without a nearest letter are left out.
func (l *Letters) Text(t string) string {
	if plainLetters(t) {
		return t
	}
	if l == nil {
		l = &Letters{}
	}
	var b strings.Builder
	for _, r := range norm.NFC.String(strings.ToValidUTF8(t, string(unicode.ReplacementChar))) {
		switch {
		case unicode.Is(unicode.Cf, r): // marks of direction and joining are not seen
		case unicode.IsControl(r):
			b.WriteByte(' ')
		case hasLetter(r):
			b.WriteRune(r)
		default:
			b.WriteString(l.instead(r))
		}
	}
	return b.String()
}

// instead is what stands for a letter that the typeface has not.
func (l *Letters) instead(r rune) string {
	near := nearestOf(r)
	switch {
	case near != "":
		l.bare = l.bare || strings.IndexFunc(norm.NFD.String(string(r)), unicode.IsMark) >= 0
	case unicode.IsMark(r):
		l.bare = true
	case unicode.IsLetter(r) || unicode.IsNumber(r):
		l.numbered = true
		return fmt.Sprintf("[%04X]", r)
	default:
		l.left = true
	}
	return near
}

// nearestOf is what a letter is made of, with as many of its marks as the typeface
// has together; empty where that is nothing to be read.
func nearestOf(r rune) string {
	parts := []rune(norm.NFKD.String(string(r)))
	for i, part := range parts {
		if near, ok := nearest[part]; ok {
			parts[i] = near
		}
	}
	for n := len(parts); n > 0; n-- {
		if t := norm.NFC.String(string(parts[:n])); !unicode.IsMark(parts[0]) && strings.IndexFunc(t, lacks) < 0 {
			return t
		}
	}
	return ""
}

func lacks(r rune) bool { return !hasLetter(r) }

// nearest are the hyphens and bars that decomposing does not lead to a plain one.
var nearest = map[rune]rune{'\u2010': '-', '\u2012': '-', '\u2015': '-', '\u2043': '-'}

// Said tells what could not be written as it is; empty where all could.
func (l *Letters) Said() string {
	if l == nil {
		return ""
	}
	var parts []string
	if l.bare {
		parts = append(parts, "letters with a mark that it lacks stand without the mark")
	}
	if l.numbered {
		parts = append(parts, "letters that it lacks stand as their number in Unicode, in brackets")
	}
	if l.left {
		parts = append(parts, "signs that it lacks are left out")
	}
	if len(parts) == 0 {
		return ""
	}
	return "Not every name could be written in the typeface of this file: " + strings.Join(parts, "; ") + "."
}

// plainLetters tells whether a text holds nothing but the letters of western Europe,
// which are all there and need no looking up.
func plainLetters(t string) bool {
	for _, r := range t {
		if r < ' ' || r > '~' && r < '\u00a0' || r == '\u00ad' || r > '\u017f' {
			return false
		}
	}
	return true
}

// faces are the typeface, plain and bold.
var faces = sync.OnceValues(func() ([2]*sfnt.Font, error) {
	plain, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		return [2]*sfnt.Font{}, fmt.Errorf("read the typeface: %w", err)
	}
	bold, err := sfnt.Parse(gobold.TTF)
	if err != nil {
		return [2]*sfnt.Font{}, fmt.Errorf("read the bold typeface: %w", err)
	}
	return [2]*sfnt.Font{plain, bold}, nil
})

// hasLetter tells whether the typeface has a letter, plain and bold.
func hasLetter(r rune) bool {
	both, err := faces()
	if err != nil || r > 0xffff { // beyond the basic plane a document cannot hold it
		return false
	}
	for _, face := range both {
		if glyph, err := face.GlyphIndex(nil, r); err != nil || glyph == 0 {
			return false
		}
	}
	return r != unicode.ReplacementChar
}
