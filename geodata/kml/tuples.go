package kml

import (
	"strings"
	"unicode"

	"crossfall/geodata"
	"crossfall/geodata/internal/textfile"
	"crossfall/geodata/internal/xmlscan"
)

// wantTuples is what coordinates should look like.
const wantTuples = "write longitude,latitude,altitude without blanks in it, and a blank between one place and the next"

// tuples reads the text of an element coordinates: lon,lat[,alt] with blanks
// between. Where commas and blanks leave open which number belongs to which
// place, the whole element is refused, once.
func (r *reader) tuples(e *xmlscan.Element) {
	var got []corner
	for from := 0; from < len(e.Text); {
		at, word := nextWord(e.Text, from)
		if word == "" {
			break
		}
		from = at + len(word)
		fields := strings.Split(word, ",")
		if why := ambiguous(fields); why != "" {
			r.Faults.Problem(r.At(e, at), "coordinates-ambiguous", word, why, wantTuples)
			return
		}
		if c, ok := r.corner(fields, r.At(e, at), word); ok {
			got = append(got, c)
		}
		if len(got) > geodata.MostPoints {
			break // the caller refuses the file
		}
	}
	if n := len(got); n > 1 && r.shape.kind == "ring" && samePlace(got[0], got[n-1]) {
		got = got[:n-1]
	}
	if r.shape.kind == "point" && len(got) > 1 {
		r.Faults.Problem(got[1].pos, "coordinates-ambiguous", e.Text, "a point has more than one place", wantTuples)
		return
	}
	r.placed = append(r.placed, got...)
}

// nextWord finds the next run of letters that are not blanks.
func nextWord(text string, from int) (at int, word string) {
	rest := strings.TrimLeftFunc(text[from:], unicode.IsSpace)
	at = len(text) - len(rest)
	if end := strings.IndexFunc(rest, unicode.IsSpace); end >= 0 {
		rest = rest[:end]
	}
	return at, rest
}

// ambiguous says why the numbers of one tuple cannot be told apart; empty when
// they can.
func ambiguous(fields []string) string {
	for _, f := range fields {
		if f == "" {
			return "a comma stands beside a blank, another comma or the end, so it is not clear which numbers belong together"
		}
	}
	switch {
	case len(fields) == 1:
		return "a number stands alone, so it is not clear which numbers belong together"
	case len(fields) > 3:
		return "there are more than three numbers without a blank, so it is not clear where one place ends"
	}
	return ""
}

// trackPlace reads one place of a track: lon lat alt with blanks between.
func (r *reader) trackPlace(e *xmlscan.Element) {
	fields := strings.Fields(e.Text)
	if len(fields) != 2 && len(fields) != 3 || strings.Contains(e.Text, ",") {
		r.Faults.Problem(r.TextPos(e), "coordinates-ambiguous", e.Text, "a place of a track is not three numbers with blanks between", "write longitude latitude altitude")
		return
	}
	if c, ok := r.corner(fields, r.TextPos(e), e.Text); ok {
		r.placed = append(r.placed, c)
	}
}

// corner reads the numbers of one place.
func (r *reader) corner(fields []string, pos geodata.Pos, read string) (corner, bool) {
	c := corner{pos: pos, of: r.shape}
	for i, f := range fields {
		v, ok := textfile.Number(f)
		if !ok {
			r.Faults.NotNumber(pos, read, []string{"the longitude", "the latitude", "the altitude"}[i])
			return c, false
		}
		c.numbers = append(c.numbers, v)
	}
	if lon, lat := c.numbers[0], c.numbers[1]; lon < -180 || lon > 180 || lat < -90 || lat > 90 {
		r.Faults.Problem(pos, "not-degrees", read, "this is no longitude and latitude in degrees", wantTuples)
		return c, false
	}
	if !strings.Contains(fields[0], ".") && !strings.Contains(fields[1], ".") {
		if r.wholeDegrees++; r.wholeDegrees == 1 {
			r.firstWhole = pos
		}
	}
	return c, true
}

func samePlace(a, b corner) bool {
	return a.numbers[0] == b.numbers[0] && a.numbers[1] == b.numbers[1]
}
