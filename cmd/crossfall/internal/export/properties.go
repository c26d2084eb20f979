package export

import (
	"bytes"
	"strconv"

	"crossfall/geodata"
)

// properties are the named values of a feature, in the order in which they are
// written. An estimate is three of them: its value, and its low and high ends.
type properties []property

type property struct {
	key   string
	value any
}

func (p *properties) add(key string, value any) { *p = append(*p, property{key, value}) }

// number adds a figure rounded to so many decimals.
func (p *properties) number(key string, v float64, decimals int) { p.add(key, rounded(v, decimals)) }

// band adds an estimate; three nulls where there is none.
func (p *properties) band(key string, e *geodata.Estimate, decimals int) {
	var value, low, high any
	if e != nil {
		value, low, high = rounded(e.Value, decimals), rounded(e.Low, decimals), rounded(e.High, decimals)
	}
	p.add(key, value)
	p.add(key+"_low", low)
	p.add(key+"_high", high)
}

// MarshalJSON writes the properties as an object in their own order.
func (p properties) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	for i, q := range p {
		value, err := compact(q.value)
		if err != nil {
			return nil, err
		}
		b.WriteByte("{,"[min(i, 1)])
		b.WriteString(strconv.Quote(q.key)) // keys are letters and low lines
		b.WriteByte(':')
		b.WriteString(value)
	}
	if len(p) == 0 {
		b.WriteByte('{')
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}
