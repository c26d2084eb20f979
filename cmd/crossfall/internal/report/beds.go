package report

import (
	"errors"
	"fmt"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
	"crossfall/siting/plan"
)

// bedParts are a sheet for each bed: the decision, the cut through it, what to
// build on which ground, and how to set it out.
func bedParts(w words.Words, a *siting.Assessment, opt Options) ([]part, error) {
	out := make([]part, len(a.Beds))
	for i, b := range a.Beds {
		out[i] = part{ID: fmt.Sprintf("bed-%d", i+1), Title: b.Name, Page: true, Blocks: []block{{Items: w.Decided(b)}}}
		cut, err := section(b, fmt.Sprintf("section-%d", i+1), opt)
		if err != nil {
			return nil, err
		}
		out[i].Blocks = append(out[i].Blocks, cut...)
		out[i].Blocks = append(out[i].Blocks, buildAndGround(w, b))
		out[i].Blocks = append(out[i].Blocks, settingOut(w, a, b)...)
	}
	return out, nil
}

// section is the cut through a bed; nothing where nothing is built.
func section(b siting.Bed, name string, opt Options) ([]block, error) {
	f, err := plan.SectionFigure(b, opt.plan())
	if errors.Is(err, plan.ErrNoSection) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	return []block{{Figure: &figure{Figure: f, Name: name}}}, nil
}

func buildAndGround(w words.Words, b siting.Bed) block {
	build := block{Items: w.BuildList(b)}
	if build.empty() {
		build = block{Text: "Nothing is to be built, and no pegs are given."}
	}
	return block{Columns: []column{{"What to build", []block{build}}, {"How it lies", []block{{Items: w.Ground(b)}}}}}
}

// settingOut is how a bed is put on the ground.
func settingOut(w words.Words, a *siting.Assessment, b siting.Bed) []block {
	var out []block
	for _, s := range a.SettingOut.Beds {
		if s.Name != b.Name || b.Build == nil {
			continue
		}
		var rows [][]string
		for _, c := range s.Corners {
			rows = append(rows, w.SetOutRow(c))
		}
		t := grid("Corners of "+b.Name, words.SetOutHeads(), rows)
		t.Table.Caption = "Level distances: hold the tape level, with a plumb line at the low end."
		out = append(out, titled("Every corner of "+b.Name+" by two tapes", t, block{Items: w.SetOutNotes(s)})...)
	}
	return append(out, titled("Pegs of "+b.Name+", from the plot's origin", block{Steps: w.PegPlaces(b)})...)
}

// edgesPart sets the ways to edge each bed side by side.
func edgesPart(w words.Words, a *siting.Assessment) part {
	p := part{ID: "edges", Title: "Edges compared"}
	for _, b := range a.Beds {
		var t block
		if rows := w.EdgeRows(b, currencyOf(a)); len(rows) > 0 {
			t = grid("Ways to edge "+b.Name, words.EdgeHeads(b), rows)
		}
		p.Blocks = append(p.Blocks, titled("Ways to edge "+b.Name, t, block{Items: w.EdgeReasons(b)})...)
		p.Blocks = append(p.Blocks, titled("What the edge of "+b.Name+" depends on", block{Items: w.Sensitivity(b)})...)
	}
	return p
}

// currencyOf is the money of the prices; empty where none was given.
func currencyOf(a *siting.Assessment) string {
	if a.Quantities.Cost == nil {
		return ""
	}
	return a.Quantities.Cost.Currency
}
