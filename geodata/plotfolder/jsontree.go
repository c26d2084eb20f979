package plotfolder

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
	"crossfall/geodata/internal/textfile"
)

// deepest is the depth of nesting over which a JSON file is refused; GeoJSON
// needs about ten.
const deepest = 40

// jsonKind is the sort of a JSON value.
type jsonKind uint8

const (
	jsonNull jsonKind = iota
	jsonBool
	jsonNumber
	jsonString
	jsonArray
	jsonObject
)

// node is a JSON value that knows its place.
type node struct {
	kind     jsonKind
	text     string // of a number, a string or a truth value
	keys     []string
	keysAt   []int   // bytes at which the keys begin
	items    []*node // of an array, or beside keys
	from, to int     // bytes of the text
}

// member finds a member of an object; nil when it has none.
func (n *node) member(key string) *node {
	if n == nil || n.kind != jsonObject {
		return nil
	}
	if i := slices.Index(n.keys, key); i >= 0 {
		return n.items[i]
	}
	return nil
}

// word is the text of a string member; empty when there is none.
func (n *node) word(key string) string {
	if m := n.member(key); m != nil && m.kind == jsonString {
		return m.text
	}
	return ""
}

// document is a JSON file with its places.
type document struct {
	file   string
	text   string
	values int // read so far
	at     *textfile.Places
	root   *node
	c      *collector
}

// parseJSON reads a whole JSON text. It refuses keys that stand twice in one
// object, since only one of them would count.
func parseJSON(f *file, c *collector) (*document, bool) {
	text, faults := csvtable.Text(f.name, f.data)
	if faults.Problems() > 0 {
		c.addAll(faults)
		return nil, false
	}
	d := &document{file: f.name, text: text, at: textfile.NewPlaces(f.name, text), c: c}
	var raw json.RawMessage
	if err := json.Unmarshal([]byte(text), &raw); err != nil {
		d.syntax(err)
		return nil, false
	}
	before := c.problems
	dec := json.NewDecoder(strings.NewReader(text))
	dec.UseNumber()
	root, err := d.value(dec, 0)
	switch {
	case errors.Is(err, errTooMany):
		c.problem(d.pos(int(dec.InputOffset())), "too-many-values", "", fmt.Sprintf("the file holds more than %d values", geodata.MostValues), "give the part around the plot")
		return nil, false
	case err != nil:
		c.problem(d.pos(int(dec.InputOffset())), "json-too-deep", "", fmt.Sprintf("the JSON is nested more than %d deep", deepest), "export the file anew as plain GeoJSON")
		return nil, false
	}
	d.root = root
	return d, c.problems == before
}

// pos is the place of a byte.
func (d *document) pos(at int) geodata.Pos {
	return d.at.At(at)
}

// read is the text of a node as it stood, shortened.
func (d *document) read(n *node) string { return textfile.Short(d.text[n.from:n.to]) }

func (d *document) problem(n *node, code, message, want string) {
	d.c.problem(d.pos(n.from), code, d.read(n), message, want)
}

// syntax tells where a text stops being JSON.
func (d *document) syntax(err error) {
	pos := geodata.Pos{File: d.file}
	var s *json.SyntaxError
	if errors.As(err, &s) {
		pos = d.pos(max(0, int(s.Offset)-1))
	}
	message := "the file is not valid JSON"
	if strings.TrimSpace(d.text) == "" {
		d.c.problem(pos, "empty-file", "", "the file is empty", "export the features anew as GeoJSON")
		return
	}
	d.c.problem(pos, "not-json", "", message+": "+err.Error(), "export the file anew as GeoJSON")
}

var (
	errTooDeep = errors.New("nested too deeply")
	errTooMany = errors.New("too many values")
)

// value reads one value of a text that is known to be JSON.
func (d *document) value(dec *json.Decoder, depth int) (*node, error) {
	if depth > deepest {
		return nil, errTooDeep
	}
	if d.values++; d.values > geodata.MostValues {
		return nil, errTooMany
	}
	n := &node{from: d.skip(int(dec.InputOffset()))}
	token, err := dec.Token()
	if err != nil {
		return nil, err
	}
	switch t := token.(type) {
	case json.Delim:
		err = d.inside(dec, n, t, depth)
	case json.Number:
		n.kind, n.text = jsonNumber, t.String()
	case string:
		n.kind, n.text = jsonString, t
	case bool:
		n.kind, n.text = jsonBool, fmt.Sprint(t)
	}
	n.to = int(dec.InputOffset())
	return n, err
}

// inside reads the members of an object or an array.
func (d *document) inside(dec *json.Decoder, n *node, open json.Delim, depth int) error {
	n.kind = jsonArray
	if open == '{' {
		n.kind = jsonObject
	}
	seen := map[string]bool{}
	for dec.More() {
		if n.kind == jsonObject {
			at := d.skip(int(dec.InputOffset()))
			key, err := dec.Token()
			if err != nil {
				return err
			}
			word, _ := key.(string)
			if seen[word] {
				d.c.problem(d.pos(at), "key-twice", word, "this key stands twice in one object", "keep one of the two")
			}
			seen[word] = true
			n.keys, n.keysAt = append(n.keys, word), append(n.keysAt, at)
		}
		item, err := d.value(dec, depth+1)
		if err != nil {
			return err
		}
		n.items = append(n.items, item)
	}
	_, err := dec.Token() // the closing bracket
	return err
}

// skip passes over what stands between two values.
func (d *document) skip(at int) int {
	for at < len(d.text) && strings.IndexByte(" \t\r\n,:", d.text[at]) >= 0 {
		at++
	}
	return at
}
