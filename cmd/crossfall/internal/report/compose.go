package report

import (
	"errors"
	"fmt"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
	"crossfall/siting/plan"
)

// compose puts the report together: the summary to act on, then a sheet for each
// bed, then the water, and at the end what all of it rests on.
func compose(a *siting.Assessment, opt Options) (document, error) {
	w := words.Words{Units: opt.Units}
	d := document{Name: a.Name, Date: opt.Date}
	if d.Name == "" {
		d.Name = "Plot"
	}
	d.Said = "Beds on a slope: what to do, what to buy, how to set it out, and what it rests on."
	d.Frame = append(d.Frame, w.Frame(a.Frame))
	if t := w.AxisSaid(a.Frame); t != "" {
		d.Frame = append(d.Frame, t)
	}
	sheet, err := planPart(a, opt)
	if err != nil {
		return document{}, err
	}
	beds, err := bedParts(w, a, opt)
	if err != nil {
		return document{}, err
	}
	d.add(decisionPart(w, a), sheet, buyingPart(w, a), cautionPart(w, a))
	d.add(setOutPart(w, a))
	d.add(beds...)
	lie, water := layoutPart(w, a), waterPart(w, a, opt)
	water.Page = len(lie.Blocks) == 0 // the sheets of the beds end before either
	d.add(lie, water, lightPart(w, a), workPart(w, a), accessPart(w, a), carryPart(w, a, opt), edgesPart(w, a))
	d.add(assumedPart(w, a), surePart(w, a), workingPart(w, a))
	return d, nil
}

// add appends the parts that say something.
func (d *document) add(parts ...part) {
	for _, p := range parts {
		if len(p.Blocks) > 0 {
			d.Parts = append(d.Parts, p)
		}
	}
}

func decisionPart(w words.Words, a *siting.Assessment) part {
	p := part{ID: "decision", Title: "What to do", Summary: true, Blocks: []block{{Lead: w.Decision(a)}}}
	for _, c := range w.Cautions(a) {
		if c.Mark == "STOP" {
			p.Blocks = append(p.Blocks, block{Caution: &words.Caution{Mark: c.Mark, Text: c.Text}})
		}
	}
	rows := make([][]string, len(a.Beds))
	for i, b := range a.Beds {
		rows[i] = w.BedRow(b)
	}
	if len(rows) > 0 {
		t := grid("Table of beds", words.BedHeads(), rows)
		t.Table.Caption = "One row for each bed; figures in brackets are the band within which the figure lies."
		p.Blocks = append(p.Blocks, t)
	}
	return p
}

// planPart holds the plan; an assessment without a boundary has none.
func planPart(a *siting.Assessment, opt Options) (part, error) {
	p := part{ID: "plan", Title: "Plan", Summary: true}
	f, err := plan.PlotFigure(a, opt.plan())
	if errors.Is(err, plan.ErrNothingToDraw) {
		p.Blocks = []block{{Text: "There is no boundary to draw."}}
		return p, nil
	}
	if err != nil {
		return p, err
	}
	key := func(room float64) (plan.Figure, error) { return plan.KeyFigure(a, opt.plan(), room) }
	p.Blocks = []block{{Figure: &figure{Figure: f, Name: "plan", Sheet: true, Key: key,
		Caption: "The drawing is true to its scale when printed at full size (100 %)."}}}
	return p, nil
}

// buyingPart is the list for the shop; what is said about carrying and cutting
// comes later.
func buyingPart(w words.Words, a *siting.Assessment) part {
	p := part{ID: "buying", Title: "What to buy and carry", Summary: true, Dense: true}
	if list, _ := bought(w, a); len(list) > 0 {
		p.Blocks = []block{{Items: list}}
	}
	return p
}

// remark is the name that words gives to what is no thing to buy.
const remark = "Note"

// bought are the things to buy, and the notes on them.
func bought(w words.Words, a *siting.Assessment) (list []words.Item, notes []string) {
	for _, i := range w.Buying(a.Quantities) {
		if i.Name == remark {
			notes = append(notes, i.Value)
		} else {
			list = append(list, i)
		}
	}
	return list, notes
}

func cautionPart(w words.Words, a *siting.Assessment) part {
	p := part{ID: "cautions", Title: "Cautions", Summary: true, Dense: true}
	for _, c := range w.Cautions(a) {
		p.Blocks = append(p.Blocks, block{Caution: &c})
	}
	if len(p.Blocks) == 0 {
		p.Blocks = texts([]string{"None was found; that does not make the ground safe to dig. Ask about services first."})
	}
	return p
}

// carryPart is how boards are cut, and the notes on buying.
func carryPart(w words.Words, a *siting.Assessment, opt Options) part {
	p := part{ID: "cutting", Title: "Cutting and carrying"}
	for i, b := range a.Quantities.Boards {
		lines := w.Cuts(b)
		if len(lines) == 0 {
			continue
		}
		p.Blocks = append(p.Blocks, heading("Cut list: "+w.CutHead(b)))
		if f, err := plan.CutFigure(b, opt.plan()); err == nil {
			p.Blocks = append(p.Blocks, block{Figure: &figure{Figure: f, Name: fmt.Sprintf("cuts-%d", i+1)}})
		}
		p.Blocks = append(p.Blocks, block{Steps: lines})
	}
	if _, notes := bought(w, a); len(notes) > 0 {
		p.Blocks = append(p.Blocks, titled("Notes on buying and carrying", block{List: notes})...)
	}
	return p
}

func lightPart(w words.Words, a *siting.Assessment) part {
	p := part{ID: "sun", Title: "Hours of direct sun"}
	said := w.LightSaid(a)
	if len(said) == 0 {
		return p
	}
	p.Blocks = append(p.Blocks, grid("Hours of direct sun", words.LightHeads(a), words.LightRows(a)))
	if f, err := plan.SunFigure(a); err == nil {
		p.Blocks = append(p.Blocks, block{Figure: &figure{Figure: f, Name: "sun-bars"}})
	}
	p.Blocks = append(p.Blocks, block{Items: said})
	return p
}
