package heightgrid

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"crossfall/geodata"
)

// columns says how the rows of a list are cut and which cells are x, y and z.
type columns struct {
	sep        byte // 0: any number of blanks
	at         [3]int
	headerLine int // 0 when there is none
	extra      bool
	lonLat     bool
	unit       geodata.Unit // of x and y; 0 not said
	heightUnit geodata.Unit
}

// reference is what the names of the columns say of units.
func (c columns) reference() Reference {
	return Reference{Geographic: c.lonLat, Unit: c.unit, HeightUnit: c.heightUnit}
}

// notes says which columns were taken when that is not plain.
func (c columns) notes() geodata.Faults {
	if c.headerLine > 0 || !c.extra {
		return nil
	}
	return geodata.Faults{{
		Code: "xyz-first-three", Severity: geodata.Note,
		Message: "the list has more than three columns and no header; the first three were taken as x (east), y (north) and height",
	}}
}

// xyzRow is one point.
type xyzRow struct {
	at     orb.Point
	height float64
	commas int
}

// row reads a line. The fault's code is empty when it could be read.
func (c columns) row(line []byte, number int) (r xyzRow, fault geodata.Fault) {
	var cells [3][]byte
	var starts [3]int
	if n := c.cut(line, &cells, &starts); n <= max(c.at[0], c.at[1], c.at[2]) {
		return r, c.fault(line, number, 1, fmt.Sprintf("the row has %d cells; x, y and z are not all there", n))
	}
	var v [3]float64
	for i, cell := range cells {
		number64, comma, ok := decimal(cell)
		switch {
		case ok && comma && c.sep == ',':
			ok = false
		case !ok && i == 2 && (isNothing(cell) || len(cell) == 0):
			number64, ok = math.NaN(), true
		}
		if !ok {
			return r, c.fault(cell, number, starts[i]+1, [3]string{"x", "y", "z"}[i]+" is not a number")
		}
		if comma {
			r.commas++
		}
		v[i] = number64
	}
	r.at, r.height = orb.Point{v[0], v[1]}, v[2]
	return r, geodata.Fault{}
}

func (c columns) fault(read []byte, line, col int, message string) geodata.Fault {
	return geodata.Fault{
		Code: "xyz-row", Severity: geodata.Problem, Pos: geodata.Pos{Line: line, Col: col},
		Read: clip(bytes.TrimSpace(read)), Message: message, Want: "write x, y and z as plain numbers, such as 169750.5 12199.5 52.76",
	}
}

// cut finds the cells of x, y and z, with the places where they begin, and
// counts all cells of the line.
func (c columns) cut(line []byte, cells *[3][]byte, starts *[3]int) (n int) {
	for at := 0; ; n++ {
		for at < len(line) && blank(line[at]) && line[at] != c.sep {
			at++
		}
		if at == len(line) && (c.sep == 0 || n == 0) {
			return n
		}
		end := at
		for end < len(line) && line[end] != c.sep && (c.sep != 0 || !blank(line[end])) {
			end++
		}
		for i, want := range c.at {
			if n == want {
				cells[i], starts[i] = unquoted(line[at:end]), at
			}
		}
		if end == len(line) {
			return n + 1
		}
		at = end
		if c.sep != 0 {
			at++
		}
	}
}

// unquoted takes off blanks behind a cell and quotes around it.
func unquoted(cell []byte) []byte {
	for len(cell) > 0 && blank(cell[len(cell)-1]) {
		cell = cell[:len(cell)-1]
	}
	if n := len(cell); n >= 2 && cell[0] == '"' && cell[n-1] == '"' {
		return bytes.TrimSpace(cell[1 : n-1])
	}
	return cell
}

func blank(c byte) bool { return c == ' ' || c == '\t' || c == '\r' || c == '\n' || c == '\f' }

// findColumns finds out from the first lines how rows are cut, whether there is
// a header and which columns are x, y and z.
func findColumns(head []byte) (columns, error) {
	const looked = 20 // lines
	body, comment, first := [][]byte{}, []byte(nil), 0
	head = bytes.TrimPrefix(head, utf8BOM)
	for i, line := range bytes.Split(head, []byte{'\n'}) {
		if isComment(line) {
			if len(body) == 0 && len(bytes.TrimSpace(line)) > 0 {
				comment = bytes.TrimLeft(line, "#/ ")
			}
			continue
		}
		if len(body) == 0 {
			first = i + 1
		}
		if body = append(body, line); len(body) == looked {
			break
		}
	}
	for _, sep := range []byte{';', ',', '\t', 0} {
		if c, ok := (columns{sep: sep}).fit(body, comment, first); ok {
			return c, nil
		}
	}
	return columns{}, refuse("xyz-columns", "this is not a list of x, y, z: the columns could not be told",
		"give x, y and z in the first three columns, or a first line that names them")
}

// fit tries a way of cutting on the first lines: most of them must be rows.
func (c columns) fit(body [][]byte, comment []byte, firstLine int) (columns, bool) {
	if len(body) == 0 {
		return c, false
	}
	plain := c
	plain.at = [3]int{0, 1, 2}
	switch {
	case c.named(body[0]):
		c.headerLine = firstLine
		body = body[1:]
	case !plain.isRow(body[0]):
		return c, false
	case !c.named(comment):
		c = plain
	}
	good := 0
	for _, line := range body {
		if c.isRow(line) {
			good++
		}
	}
	var cells [3][]byte
	var starts [3]int
	c.extra = len(body) > 0 && c.cut(body[0], &cells, &starts) > 3
	return c, good > 0 && 2*good >= len(body)
}

// isRow tells whether a line can be read as a row.
func (c columns) isRow(line []byte) bool {
	_, fault := c.row(line, 0)
	return fault.Code == ""
}

// named takes a line as a header: it is one when it names x, y and z.
func (c *columns) named(line []byte) bool {
	found := [3]bool{}
	split := strings.Fields(string(line))
	if c.sep != 0 {
		split = strings.Split(string(line), string(rune(c.sep)))
	}
	for i, cell := range split {
		axis, lonLat, unit := columnNamed(string(unquoted([]byte(strings.TrimSpace(cell)))))
		if axis < 0 || found[axis] {
			continue
		}
		found[axis] = true
		c.at[axis] = i
		c.lonLat = c.lonLat || lonLat
		if axis == 2 {
			c.heightUnit = unit
		} else if unit != 0 {
			c.unit = unit
		}
	}
	return found == [3]bool{true, true, true}
}

// columnNamed finds what a column of that name holds: 0 east, 1 north, 2
// height, -1 something else. A unit may follow in brackets or behind a low
// line: "z (ft)", "height_m".
func columnNamed(name string) (axis int, lonLat bool, unit geodata.Unit) {
	name = strings.ToLower(name)
	if i := strings.LastIndexAny(name, "([_"); i > 0 {
		if u, ok := geodata.UnitNamed(strings.TrimSpace(strings.Trim(name[i:], "()[]_"))); ok {
			name, unit = strings.TrimSpace(name[:i]), u
		}
	}
	switch name {
	case "x", "e", "east", "easting":
		return 0, false, unit
	case "lon", "long", "lng", "longitude":
		return 0, true, 0
	case "y", "n", "north", "northing":
		return 1, false, unit
	case "lat", "latitude":
		return 1, true, 0
	case "z", "h", "height", "ht", "elev", "elevation", "alt", "altitude", "level", "rl", "reduced level":
		return 2, false, unit
	}
	return -1, false, 0
}
