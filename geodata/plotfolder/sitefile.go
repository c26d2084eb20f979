package plotfolder

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
	"crossfall/geodata/internal/textfile"

	toml "github.com/pelletier/go-toml/v2"
)

// readSite reads site.toml. Every unknown key, wrong type and value out of its
// range is told.
func readSite(f *file, c *collector) geodata.Site {
	text, faults := csvtable.Text(f.name, f.data)
	c.addAll(faults)
	if faults.Problems() > 0 {
		return geodata.Site{}
	}
	d, ok := indexSite(f.name, []byte(text), c)
	if !ok {
		return d.sound()
	}
	if len(d.settings) > geodata.MostSettings {
		over := d.settings[geodata.MostSettings]
		c.problem(geodata.Pos{File: d.file, Line: over.line, Col: over.col}, "site-too-many-settings", d.line(over.line),
			fmt.Sprintf("the file has %d settings, over %d", len(d.settings), geodata.MostSettings), "see the example that crossfall start writes")
		return d.sound()
	}
	site := d.decode(c)
	site.Ground.WeedsAt, _ = d.find("ground.weeds", 0)
	if d.unread {
		return site
	}
	if !d.checkLists(site, c) {
		return site // each entry would be looked for in the file
	}
	checkLetters(geodata.Pos{File: d.file}, "the name", site.Name, c)
	d.checkRanges(site, c)
	d.checkWords(site, c)
	d.checkHandTests(site.Ground, c)
	d.checkBeds(site.Beds, c)
	d.checkServices(site, c)
	d.checkToCome(site, c)
	d.checkWeeds(site, c)
	d.checkAcknowledged(site, c)
	return site
}

// sound decodes the settings of a file that is not TOML as far as they could be
// told apart, one by one: what they say of coordinates and units keeps the
// other files from being misread.
func (d *siteText) sound() (site geodata.Site) {
	for _, s := range d.settings {
		if s.key == "coordinates" || s.key == "units" {
			var one geodata.Site
			if decodeStrictly(d.data[s.from:s.to], &one) == nil {
				site.Coordinates, site.Units = cmp.Or(one.Coordinates, site.Coordinates), cmp.Or(one.Units, site.Units)
			}
		}
	}
	return site
}

// mostTries bounds the rounds of decoding, each of which takes out one value
// of a wrong type: the decoder stops at the first.
const mostTries = 100

// decode fills a Site. A value of a wrong type is told, taken out, and the rest
// decoded again.
func (d *siteText) decode(c *collector) geodata.Site {
	data := slices.Clone(d.data)
	for range mostTries {
		var site geodata.Site
		err := decodeStrictly(data, &site)
		var unknown *toml.StrictMissingError
		var wrong *toml.DecodeError
		switch {
		case err == nil:
			return site
		case errors.As(err, &unknown):
			d.unknownKeys(unknown, c)
			return site
		case errors.As(err, &wrong):
			if !d.wrongType(wrong, data, c) {
				return site
			}
		default:
			d.unread = true
			c.problem(geodata.Pos{File: d.file}, "site-not-toml", "", "the file cannot be read: "+err.Error(), "see the example that crossfall start writes")
			return site
		}
	}
	return geodata.Site{}
}

// decodeStrictly turns a panic of the decoder into an error: its input is a
// stranger's file.
func decodeStrictly(data []byte, site *geodata.Site) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("the decoder stopped: %v", r)
		}
	}()
	return toml.NewDecoder(bytes.NewReader(data)).DisallowUnknownFields().Decode(site)
}

// unknownKeys tells every key that is not known, with the nearest that is.
func (d *siteText) unknownKeys(e *toml.StrictMissingError, c *collector) {
	for i := range e.Errors {
		one := &e.Errors[i]
		line, col := one.Position()
		key := strings.Join(one.Key(), ".")
		want := ""
		if c.problems < mostFaults { // it is kept
			want = adviceKey(key)
		}
		c.problem(d.pos(line, col), "site-key-unknown", d.line(line), fmt.Sprintf("%q is not a setting that is known", textfile.Short(key)), want)
	}
}

// wrongType tells of a value of a wrong type and blanks it out, with the inline
// table it may stand in. False means that the rest cannot be read.
func (d *siteText) wrongType(e *toml.DecodeError, data []byte, c *collector) bool {
	line, col := e.Position()
	i := d.covering(line, col)
	if i < 0 || blank(data[d.settings[i].from:d.settings[i].to]) {
		d.unread = true
		c.problem(d.pos(line, col), "site-not-toml", d.line(line), "the file cannot be read from here on: "+strings.TrimPrefix(e.Error(), "toml: "), "correct this line")
		return false
	}
	s := d.settings[i]
	pos := geodata.Pos{File: d.file, Line: s.line, Col: s.col}
	if d.twice(i) {
		c.problem(pos, "site-key-twice", d.line(s.line), s.key+" stands twice", "keep one of the two")
	} else {
		want := "write what the setting holds"
		if k, known := siteKeyNamed(s.key); known {
			want = "write " + k.holds
		}
		c.problem(pos, "site-wrong-type", d.line(s.line), s.key+" holds a value of another sort", want)
	}
	out := d.settings[s.within]
	for i := out.from; i < out.to; i++ {
		if data[i] != '\n' {
			data[i] = ' '
		}
	}
	for i := range d.settings {
		d.settings[i].told = d.settings[i].told || d.settings[i].within == s.within
	}
	return true
}

// covering is the innermost setting that stands at a place given as line and
// byte column, the first of its line when none does; -1 without one.
func (d *siteText) covering(line, col int) int {
	if line < 1 || line > len(d.lines) {
		return -1
	}
	at, found := d.lines[line-1]+col-1, -1
	for i, s := range d.settings {
		if at >= s.from && at < s.to || found < 0 && line >= s.line && line <= s.lastLine {
			found = i
		}
	}
	return found
}

// twice tells whether a setting repeats one further up.
func (d *siteText) twice(i int) bool {
	s := d.settings[i]
	return slices.ContainsFunc(d.settings[:i], func(o setting) bool { return o.key == s.key && o.table == s.table })
}

func blank(text []byte) bool { return len(bytes.TrimSpace(text)) == 0 }
