package plotfolder

import (
	"fmt"
	"unicode/utf8"

	"crossfall/geodata"
	"crossfall/geodata/internal/textfile"
)

// thinHeights is what to do about more heights than are read.
const thinHeights = "thin them out, or give x, y and z alone as heights.xyz, of which as many are taken as are read"

// tooManyHeights refuses heights over their limit, at the first that is one too
// many.
func tooManyHeights(pos geodata.Pos, read string, n int, c *collector) {
	c.problem(pos, "too-many-heights", read, fmt.Sprintf("there are %d heights, over %d", n, geodata.MostHeights), thinHeights)
}

// checkHeights refuses a survey of too many heights, or with names and notes that
// are none.
func checkHeights(s survey, c *collector) {
	if n := len(s.spots); n > geodata.MostHeights {
		over := s.spots[geodata.MostHeights]
		tooManyHeights(over.Source, over.Name, n, c)
		return
	}
	for _, spot := range s.spots {
		checkLetters(spot.Source, "the name", spot.Name, c)
		checkLetters(spot.Source, "the note", spot.Note, c)
	}
}

// checkShapes refuses more features, corners or beds than are read. It is false
// when there are too many.
func checkShapes(shapes []drawn, c *collector) bool {
	before := c.problems
	var all, beds int
	for i := range shapes {
		d := &shapes[i]
		if i == geodata.MostFeatures {
			c.problem(d.Source, "too-many-features", d.called(), fmt.Sprintf("there are %d features drawn, over %d", len(shapes), geodata.MostFeatures),
				"leave out those that lie away from the beds")
		}
		if d.Kind == geodata.BedKind {
			if beds++; beds == geodata.MostBeds+1 {
				c.problem(d.Source, "too-many-beds", d.called(), fmt.Sprintf("there are more than %d beds drawn", geodata.MostBeds), "split the plot into two plot folders")
			}
		}
		n, was := d.corners(c), all
		if all += n; all > geodata.MostAllCorners && was <= geodata.MostAllCorners {
			tooManyCorners(d.Source, d.called(), c)
		}
		checkLetters(d.Source, "the name", d.Name, c)
		checkLetters(d.Source, "what it is", d.What, c)
		checkLetters(d.Source, "how it was located", d.Located, c)
	}
	return c.problems == before
}

// tooManyCorners refuses features that have too many corners together.
func tooManyCorners(pos geodata.Pos, read string, c *collector) {
	c.problem(pos, "too-many-corners", read, fmt.Sprintf("from here on the features have over %d corners in all", geodata.MostAllCorners),
		"leave out corners that lie along straight sides")
}

// corners counts the corners of a shape, and refuses too many on one ring or line.
func (d *drawn) corners(c *collector) (n int) {
	for _, part := range append([][]corner{d.parts}, d.holes...) {
		own := len(part)
		if cameBack(part) {
			own--
		}
		n += own
		if own > geodata.MostCorners {
			c.problem(part[geodata.MostCorners].pos, string(d.Kind)+"-too-many-corners", "", fmt.Sprintf("%s has %d corners", d.called(), own),
				fmt.Sprintf("leave out corners that lie along straight sides, down to %d", geodata.MostCorners))
		}
	}
	return n
}

// checkLetters refuses a text that no one would put on a plan.
func checkLetters(pos geodata.Pos, what, text string, c *collector) {
	if len(text) <= geodata.MostLetters { // bytes; most texts end here
		return
	}
	if n := utf8.RuneCountInString(text); n > geodata.MostLetters {
		c.problem(pos, "text-too-long", textfile.Short(text), fmt.Sprintf("%s has %d letters", what, n), fmt.Sprintf("keep it to %d", geodata.MostLetters))
	}
}

// checkRowLength refuses a row to be added whose name or note might keep the
// others from being read.
func checkRowLength(file, row string) error {
	var c collector
	checkLetters(geodata.Pos{File: file}, "the row", row, &c)
	return c.err()
}

// checkLists refuses lists of site.toml that are longer than any is. It is false
// when one is.
func (d *siteText) checkLists(s geodata.Site, c *collector) bool {
	before := c.problems
	for _, l := range []struct {
		key     string
		n, most int
	}{
		{"boards.lengths_m", len(s.Boards.Lengths), geodata.MostListed},
		{"boards.heights_mm", len(s.Boards.Heights), geodata.MostListed},
		{"boards.thicknesses_mm", len(s.Boards.Thicknesses), geodata.MostListed},
		{"ground.weeds", len(s.Ground.Weeds), geodata.MostListed},
		{"weeds", len(s.Weeds), geodata.MostListed},
		{"to_come", len(s.ToCome), geodata.MostListed},
		{"acknowledged", len(s.Acknowledged), geodata.MostAcknowledged},
	} {
		if l.n <= l.most {
			continue
		}
		pos, read := d.find(l.key, 0)
		switch l.key {
		case "weeds":
			pos, read = d.find("weeds.name", l.most)
		case "to_come":
			pos, read = d.findToCome("what", l.most)
		case "acknowledged":
			pos, read = d.findAcknowledged("caution", l.most)
		}
		c.problem(pos, "site-list-too-long", read, fmt.Sprintf("%s has %d entries, over %d", l.key, l.n, l.most), "keep those that are needed")
	}
	return c.problems == before
}
