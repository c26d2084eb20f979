package heightgrid

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"crossfall/geodata"
)

// metadata is what a file says about its numbers beside their type: height =
// offset + scale · number, except where the number is the mark of a missing
// height.
type metadata struct {
	missing       float64 // as a value of the band's type; NaN when none
	scale, offset float64
	unit          geodata.Unit // 0 when not said
}

// needed tells whether apply does anything that a tidier with the same mark does
// not do anyway.
func (m metadata) needed(rise float64) bool {
	at := m.missing * rise
	return !m.plain() || at >= lowest && at <= highest
}

// plain tells whether numbers are heights as they stand.
func (m metadata) plain() bool { return m.scale == 1 && m.offset == 0 }

// apply turns numbers into heights of the file's unit.
func (m metadata) apply(z []float64) {
	plain := m.plain()
	if plain && math.IsNaN(m.missing) {
		return
	}
	for i, v := range z {
		switch {
		case v == m.missing:
			z[i] = math.NaN()
		case !plain && math.Abs(v) < noGround:
			z[i] = m.offset + m.scale*v
		}
	}
}

// metadata reads the two tags in which GDAL keeps scale, offset, unit and the
// mark for missing heights; both are text.
func (t tiffFile) metadata(d directory, s sample) (metadata, geodata.Faults, error) {
	m := metadata{missing: math.NaN(), scale: 1}
	mark, err := t.text(d, tagMissing)
	if err != nil {
		return m, nil, err
	}
	notes := m.readMissing(mark, s)
	items, err := t.text(d, tagScaleAndOffset)
	if err != nil {
		return m, nil, err
	}
	return m, notes, m.readItems(items)
}

// readMissing takes the mark for missing heights as a value of the band's type:
// the text -3.39999999999999996e+38 means the float32 nearest to it.
func (m *metadata) readMissing(text string, s sample) geodata.Faults {
	text = strings.TrimSpace(text)
	v, err := strconv.ParseFloat(text, 64)
	switch {
	case text == "":
		return nil
	case err != nil && !errors.Is(err, strconv.ErrRange):
		return geodata.Faults{{
			Code: "tiff-missing-mark", Severity: geodata.Warning, Read: clip([]byte(text)),
			Message: "the file's mark for missing heights is not a number and was passed over",
		}}
	case s.class == floating && s.bytes == 4:
		v = float64(float32(v))
	}
	m.missing = v
	return nil
}

// readItems reads the scale, offset and unit of the first band from XML such as
// <GDALMetadata><Item name="SCALE" sample="0" role="scale">0.01</Item>.
func (m *metadata) readItems(text string) error {
	if strings.TrimSpace(text) == "" {
		return nil
	}
	x := xml.NewDecoder(strings.NewReader(text))
	x.CharsetReader = func(_ string, r io.Reader) (io.Reader, error) { return r, nil } // only ASCII matters
	for {
		token, err := x.Token()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return refuse("tiff-metadata", "the file's note of the scale of its heights cannot be read", "export the grid again")
		}
		start, ok := token.(xml.StartElement)
		if !ok || start.Name.Local != "Item" {
			continue
		}
		var value string
		if err := x.DecodeElement(&value, &start); err != nil {
			return refuse("tiff-metadata", "the file's note of the scale of its heights cannot be read", "export the grid again")
		}
		if err := m.item(start.Attr, strings.TrimSpace(value)); err != nil {
			return err
		}
	}
}

// item takes over one note when it is about the first band.
func (m *metadata) item(attrs []xml.Attr, value string) error {
	var band, role string
	for _, a := range attrs {
		switch a.Name.Local {
		case "sample":
			band = a.Value
		case "role":
			role = a.Value
		}
	}
	if band != "0" {
		return nil
	}
	switch role {
	case "unittype":
		if u, ok := geodata.UnitNamed(value); ok {
			m.unit = u
		}
		return nil
	case "scale", "offset":
		v, err := strconv.ParseFloat(value, 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) || role == "scale" && v == 0 {
			return refuse("tiff-metadata", fmt.Sprintf("the file's %s of heights is %q, not a number", role, clip([]byte(value))), "export the grid again")
		}
		if role == "scale" {
			m.scale = v
		} else {
			m.offset = v
		}
	}
	return nil
}
