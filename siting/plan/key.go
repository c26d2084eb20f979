package plan

import (
	"fmt"
	"slices"

	"crossfall/siting"

	"github.com/paulmach/orb"
)

// Sizes of the key plan, mm: it stands among text between the margins of A4 and
// Letter. Defaults of ours.
const (
	keyWide  = 178.0
	keyShort = 45.0 // at least, without its foot
	keyFoot  = 17.0 // for the scale and north
)

// KeyFigure is the plan in little, without its legend, at the finest usual scale
// that keeps it no taller than the room, mm.
func KeyFigure(a *siting.Assessment, opt Options, room float64) (Figure, error) {
	sheet, err := layKey(a, room-keyFoot)
	if err != nil {
		return Figure{}, err
	}
	f := Figure{Width: sheet.Width, Height: sheet.Height, Title: title(a), Description: description(a)}
	f.draw = func(d Drawing) {
		p := newPainter(sheet, opt)
		p.site(a)
		c := &cursor{p: p, x: sheet.panel.Left(), y: sheet.panel.Bottom(), wide: sheet.panel.Right() - sheet.panel.Left()}
		c.scaleBar()
		c.north(orb.Point{sheet.panel.Right() - 10, sheet.panel.Bottom() + 5.5}, a.Frame)
		p.write(orb.Point{c.x + 60, c.y + 4.7}, fmt.Sprintf("Scale 1:%d, printed at full size. The plan on a sheet of its own explains the signs.", sheet.Scale),
			TextStyle{Size: 2.4, Anchor: Start, Class: "panel"})
		p.flush(d)
	}
	return f, nil
}

// keyScales are those of a sheet of its own and 1:250, which stands on the usual
// scale rules too: at 1:500 a bed has no room for its name.
var keyScales = slices.Sorted(slices.Values(append(scales[:], 250)))

func layKey(a *siting.Assessment, room float64) (Sheet, error) {
	b, err := extent(a)
	if err != nil {
		return Sheet{}, err
	}
	s := Sheet{Paper: "key", Width: keyWide, ground: b.Center()}
	wide, tall := b.Right()-b.Left(), b.Top()-b.Bottom()
	for _, s.Scale = range keyScales {
		if s.length(wide)+2*areaPadding <= keyWide && s.length(tall)+2*areaPadding <= room {
			break
		}
	}
	deep := max(keyShort, min(room, s.length(tall)+2*areaPadding))
	s.Height = deep + keyFoot
	s.area = orb.Bound{Max: orb.Point{keyWide, deep}}
	s.panel = orb.Bound{Min: orb.Point{0, deep + 1.5}, Max: orb.Point{keyWide, s.Height}}
	return s, nil
}
