package plotfolder

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"

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
		return geodata.Site{}
	}
	site := d.decode(c)
	if d.wrong {
		return site
	}
	d.checkRanges(site, c)
	d.checkWords(site, c)
	d.checkServices(site, c)
	d.checkAcknowledged(site, c)
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
			d.wrong = true
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
	d.wrong = true
	for i := range e.Errors {
		one := &e.Errors[i]
		line, col := one.Position()
		key := strings.Join(one.Key(), ".")
		c.problem(d.pos(line, col), "site-key-unknown", d.line(line), fmt.Sprintf("%q is not a setting that is known", key), adviceKey(key))
	}
}

// wrongType tells of a value of a wrong type and blanks it out. False means
// that the rest cannot be read.
func (d *siteText) wrongType(e *toml.DecodeError, data []byte, c *collector) bool {
	d.wrong = true
	line, col := e.Position()
	for _, s := range d.settings {
		if line < s.line || line > s.lastLine || blank(data[s.from:s.to]) {
			continue
		}
		want := "write what the setting holds"
		if k, known := siteKeyNamed(s.key); known {
			want = "write " + k.holds
		}
		c.problem(d.pos(s.line, s.col), "site-wrong-type", d.line(s.line), s.key+" holds a value of another sort", want)
		for i := s.from; i < s.to; i++ {
			if data[i] != '\n' {
				data[i] = ' '
			}
		}
		return true
	}
	c.problem(d.pos(line, col), "site-not-toml", d.line(line), "the file cannot be read from here on: "+strings.TrimPrefix(e.Error(), "toml: "), "correct this line")
	return false
}

func blank(text []byte) bool { return len(bytes.TrimSpace(text)) == 0 }
