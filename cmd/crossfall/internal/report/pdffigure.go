package report

import (
	"crossfall/siting/plan"

	"github.com/paulmach/orb"
)

// keyUnder is the room that a heading and the gaps take beside a key plan, and
// leastKey the least room in which one is worth drawing, mm.
const (
	keyUnder = 14.0
	leastKey = 75.0
)

// figure is a drawing at its size; a sheet of its own is stood for by its key.
func (s *sheets) figure(f figure) []row {
	shown := f.Figure
	if f.Sheet {
		room := s.room() - keyUnder
		if room < leastKey {
			room = s.tall - marginTop - marginFoot - keyUnder
		}
		key, err := f.Key(room)
		if err != nil {
			s.doc.SetError(err)
			return nil
		}
		shown = key
	}
	tall := shown.Height + 2
	var caption []string
	if !f.Sheet {
		caption = s.measure.lines(f.Caption, smallType, false, textWide)
		tall += float64(len(caption)) * smallType * leading
	}
	return []row{{tall: tall, draw: func(x, y float64) {
		shown.Draw(plan.OnPDF(s.doc, orb.Point{x, y}, &s.letters))
		s.set(x, y+shown.Height+1, caption, smallType, false, plan.Grey)
	}}}
}

// figures are small drawings, as many side by side as fit.
func (s *sheets) figures(all []figure) []row {
	const gap = 5.0
	var out []row
	for len(all) > 0 {
		n := min(len(all), max(1, int((textWide+gap)/(all[0].Width+gap))))
		line, tall := all[:n], 0.0
		for _, f := range line {
			tall = max(tall, f.Height)
		}
		out = append(out, row{tall: tall + smallType*leading + 4, draw: func(x, y float64) {
			for _, f := range line {
				f.Draw(plan.OnPDF(s.doc, orb.Point{x, y}, &s.letters))
				s.write(x, y+f.Height+1, f.Caption, smallType, false, plan.Grey)
				x += f.Width + gap
			}
		}})
		all = all[n:]
	}
	return out
}
