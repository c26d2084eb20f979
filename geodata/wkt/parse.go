package wkt

import (
	"fmt"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/internal/textfile"

	"github.com/twpayne/go-geom"
	"github.com/twpayne/go-geom/encoding/wkt"
)

// parse reads one piece of text as a geometry.
func (r *reader) parse(text string, p piece, places *textfile.Places) {
	// On one line, so that the decoder counts its places from the start.
	line := strings.NewReplacer("\n", " ", "\t", " ").Replace(text[p.from:p.to])
	g, err := decodeText(line)
	if err != nil {
		at := p.from + placeOf(err)
		code, message, want := explain(err)
		r.fs.Problem(places.At(at), code, text[at:min(len(text), p.to)], message, want)
		return
	}
	pos := make([]geodata.Pos, len(p.tuples))
	for i, at := range p.tuples {
		pos[i] = places.At(at)
	}
	r.take(g, pos, places.At(p.from))
}

// decodeText calls the decoder, which must not be able to end the program.
func decodeText(text string) (g geom.T, err error) {
	defer func() {
		if e := recover(); e != nil {
			g, err = nil, fmt.Errorf("the decoder failed: %v", e)
		}
	}()
	if g, err = wkt.Unmarshal(text); err == nil && g == nil {
		err = fmt.Errorf("the decoder found no geometry")
	}
	return g, err
}

// placeOf finds the byte at which the decoder stopped; 0 when it does not say.
func placeOf(err error) int {
	first, _, _ := strings.Cut(err.Error(), "\n")
	i := strings.LastIndex(first, ", pos ")
	if i < 0 {
		return 0
	}
	n := 0
	if _, err := fmt.Sscanf(first[i:], ", pos %d", &n); err != nil || n < 0 {
		return 0
	}
	return n
}

// explain puts the decoder's words into plain ones.
func explain(err error) (code, message, want string) {
	text := err.Error()
	switch {
	case strings.Contains(text, "ring not closed"):
		return "ring-open", "the ring does not come back to its first corner, or comes back at another height", "repeat the first corner as the last"
	case strings.Contains(text, "ring doesn't have enough"):
		return "ring-too-short", "the ring has fewer than three corners", "give at least three corners, and the first again"
	case strings.Contains(text, "only one point"):
		return "line-too-short", "the line has only one point", "give two points or more"
	case strings.Contains(text, "mixed dimension"):
		return "dimensions-mixed", "some places have other numbers (height, measure) than the rest or than the geometry's name says", "give every place the same numbers"
	case strings.Contains(text, "enough coord"), strings.Contains(text, "too many coord"):
		return "point-numbers", "the place has not two, three or four numbers", "write east, north and height with blanks between, and a point for decimals"
	}
	return "not-wkt", "the geometry cannot be read from here on", advice
}
