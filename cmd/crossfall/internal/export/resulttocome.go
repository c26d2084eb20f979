package export

import (
	"errors"
	"fmt"

	"crossfall/siting"
)

// toCome appends the ground on which tall things that are still to come would hardly
// take sun from any bed; nothing of those for which there is none.
func (c *collection) toCome(things []siting.ToCome) (all error) {
	for i, t := range things {
		var p properties
		p.add("kind", "ground for what is to come")
		p.add("name", t.What)
		p.number("height_m", t.Height, 2)
		p.number("width_m", t.Width, 2)
		p.band("free_area_m2", t.Area, 1)
		p.band("free_percent", t.Share, 1)
		p.add("said", t.Said)
		all = errors.Join(all, c.areas(fmt.Sprintf("to-come-%d", i+1), evenOdd(t.Rings), p))
	}
	return all
}
