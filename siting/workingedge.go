package siting

import (
	"crossfall/geodata"
	"crossfall/siting/frame"
)

// edge records what boards, pegs and screws bear, and how long they last.
func (l *ledger) edge(id string, j judge, d decision) {
	c := d.chosen
	if c.Boards == nil || c.Pegs == nil {
		return
	}
	boards, pegs := c.Boards, c.Pegs
	thick := input("thickness of the boards", boards.Thickness*1000, "mm", "computed")
	gap := input("spacing of the pegs", pegs.Spacing, "m", "computed")
	l.add(id+".boards.stress", geodata.Exactly(boards.Stress), "N/mm²",
		"1.35 times the bending moment of a beam over equal spans, over h t² / 6; each board of a stack takes its own part of the winter load",
		"EN 1995-1-1 with EN 338 class C14 for ungraded boards; moments: structural handbooks, from memory",
		thick, gap, input("strength outdoors under a load that stays", boards.Strength, "N/mm²", "computed"))
	l.add(id+".boards.sag", geodata.Estimate{Value: boards.SagFinal * 1000, Low: boards.SagFirst * 1000, High: boards.SagFinal * 1000}, "mm",
		"bow between pegs under the drained load: at once, and three times that in the end", "EN 1995-1-1, creep factor 2.0 outdoors (from memory)", thick, gap)
	l.add(id+".boards.widest-spacing", geodata.Exactly(boards.WidestSpacing), "m",
		"spacing of pegs at which new boards just bear the winter load", "the same bending, solved for the span", thick)
	l.life(id, j, d)
	load := input("load at the peg that carries most, winter", pegs.Load*1000, "N", "computed")
	l.add(id+".pegs.code-depth", geodata.Exactly(pegs.CodeDepth*1000), "mm",
		"d³ - k d - 1.09 k h = 0 with k = 7.02 P / (s b): an upper bound for whoever must show a code figure; it was made for poles and decides nothing here",
		"International Building Code 1807.3.2.1, Equation 18-1; bearing of clay and silt, the least of Table 1806.2, though the code gives topsoil none",
		load, input("height of that load above the ground", pegs.Arm*1000, "mm", "computed"), input("peg", pegs.Size*1000, "mm square", "computed"))
	l.add(id+".pegs.factor-blocked", geodata.Exactly(pegs.FactorBlocked), "",
		"hold of the pegs over their load with the bed full of water behind sealed boards: told, and not designed for, because the boards have gaps", "Broms 1964; state of the water: default of ours", load)
	l.add(id+".screws", geodata.Exactly(boards.Screw*1000), "N",
		"what one 6 mm screw, 40 mm into the peg, carries sideways: the least of six failures. Pegs stand outside the boards, so that the compost presses on them and the screws only locate",
		"EN 1995-1-1, 8.2.2 and 8.7.2 (from memory)", thick, input("what two such screws draw out at", boards.Withdrawal*1000, "N", "computed"))
}

// risk records the compost that a winter may take off the bed as it is edged.
func (l *ledger) risk(id string, b Bed) {
	for _, o := range b.Options {
		if !o.Chosen || o.CompostAtRisk == nil {
			continue
		}
		l.add(id+".compost-at-risk", *o.CompostAtRisk, "kg",
			"rain on the bed takes R K LS C times its area; run-on takes the batter of an open upper edge as far as its pull passes what loose compost withstands; boards keep a stated share",
			"yearly soil loss (Agriculture Handbook 703, 1997), in a band of 5 either way; layer of compost and shares kept: defaults of ours",
			input("area", b.Length*b.Width, "m²", "computed"))
	}
}

// life records how long boards and pegs last.
func (l *ledger) life(id string, j judge, d decision) {
	boards, pegs := d.chosen.Boards, d.chosen.Pegs
	stake, err := frame.StakeLife(j.brief.Durability)
	if err != nil {
		return
	}
	given := from(j.plot.Site.Boards.Durability != nil)
	class := input("durability class of EN 350", float64(j.brief.Durability), "", given)
	stakes := input("life of a 50 mm stake of that class in the ground", stake.Value, "years", "default")
	left := frame.ThicknessLeft(boards.Thickness, stake.Value, boards.Faces, frame.DefaultLife) * 1000
	l.add(id+".boards.life", boards.Life, "years",
		"until two fifths of the thickness are left, or what the drained load needs; each face open to earth loses 25 mm in the life of a 50 mm stake",
		"Princes Risborough Laboratory field tests by EN 350 class; two fifths: default of ours", class, stakes,
		input("faces that rot", boards.Faces, "", "default"), input("left after 5 years", left, "mm", "computed"))
	l.add(id+".pegs.life", pegs.Life, "years", "the same for a peg, which rots from all sides at the ground", "the same", class, stakes)
}
