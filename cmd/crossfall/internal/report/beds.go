package report

import (
	"errors"
	"fmt"
	"slices"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
	"crossfall/siting/plan"
)

// bedParts are a sheet for each bed: the decision, the cut through it, what to
// build on which ground, and how to set it out.
func bedParts(w words.Words, a *siting.Assessment, opt Options) ([]part, error) {
	out := make([]part, len(a.Beds))
	for i, b := range a.Beds {
		out[i] = part{ID: fmt.Sprintf("bed-%d", i+1), Title: b.Name, Page: true, Dense: true, Blocks: []block{{Items: decided(w, b)}}}
		cut, err := section(b, fmt.Sprintf("section-%d", i+1), opt)
		if err != nil {
			return nil, err
		}
		out[i].Blocks = append(out[i].Blocks, cut...)
		out[i].Blocks = append(out[i].Blocks, buildAndGround(w, b)...)
		out[i].Blocks = append(out[i].Blocks, settingOut(w, a, b)...)
	}
	return out, nil
}

// decided is the decision but for what stands with the edges compared.
func decided(w words.Words, b siting.Bed) []words.Item {
	return slices.DeleteFunc(w.Decided(b), func(i words.Item) bool { return i.Name == "Worth boarding?" })
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

func buildAndGround(w words.Words, b siting.Bed) []block {
	build := block{Text: "Nothing is to be built, and no pegs are given."}
	things, holds, heeds := parted(w.BuildList(b))
	if len(things) > 0 {
		build = block{Items: things}
	}
	lies := append([]block{{Items: w.Ground(b)}}, titled("How it holds", block{Items: holds})...)
	sides := block{Columns: &[2]column{{"What to build", []block{build}}, {"How it lies", lies}}}
	return append([]block{sides}, titled("What to heed while building", block{List: heeds})...)
}

// heed is the name that words gives to what is said to a bed beside its figures.
const heed = "Heed"

// holding are the names of what tells how the pegs and the whole bed hold.
var holding = []string{"Pegs, factor of safety", "Pole formula of the building code", "Against slipping in winter"}

// parted are the things to build, how they hold, and what to heed.
func parted(all []words.Item) (things, holds []words.Item, heeds []string) {
	for _, i := range all {
		switch {
		case i.Name == heed:
			heeds = append(heeds, i.Value)
		case slices.Contains(holding, i.Name):
			holds = append(holds, i)
		default:
			things = append(things, i)
		}
	}
	return things, holds, heeds
}

// settingOut is how a bed is put on the ground by tape alone; the part on setting
// out has the way by rows, which is quicker.
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
		out = append(out, titled("Every corner of "+b.Name+" by two tapes, held level",
			grid("Corners of "+b.Name, words.SetOutHeads(), rows))...)
	}
	return out
}

// edgesPart sets the ways to edge each bed side by side.
func edgesPart(w words.Words, a *siting.Assessment) part {
	p := part{ID: "edges", Title: "Edges compared"}
	for _, b := range a.Beds {
		var t block
		if rows := w.EdgeRows(b, currencyOf(a)); len(rows) > 0 {
			t = grid("Ways to edge "+b.Name, words.EdgeHeads(b), rows)
		}
		p.Blocks = append(p.Blocks, titled("Ways to edge "+b.Name, t, block{Items: w.EdgeReasons(b)}, block{Text: worth(w, b)})...)
		p.Blocks = append(p.Blocks, titled("What the edge of "+b.Name+" depends on", block{Items: w.Sensitivity(b)})...)
	}
	return p
}

// worth is the short answer to whether boarding a bed pays; empty without one.
func worth(w words.Words, b siting.Bed) string {
	if b.Worth == "" {
		return ""
	}
	return "Worth boarding? " + w.Prose(b.Worth)
}

// currencyOf is the money of the prices; empty where none was given.
func currencyOf(a *siting.Assessment) string {
	if a.Quantities.Cost == nil {
		return ""
	}
	return a.Quantities.Cost.Currency
}
