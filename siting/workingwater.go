package siting

import (
	"fmt"
	"strings"
)

// storms records the design storms and the soil loss of the plot.
func (l *ledger) storms(j judge, w Water) {
	for _, s := range w.Storms {
		id := fmt.Sprintf("water.storm-%.0f", s.ReturnYears)
		l.add(id+".depth", s.Depth, "mm", fmt.Sprintf("rain of %.0f minutes met once in %.0f years on average", s.Minutes, s.ReturnYears), s.Source, rainInputs(j.plot, s.Source)...)
		if s.DayRunoff != nil {
			l.add(id+".day-runoff", *s.DayRunoff, "mm", "(P - 0.2 S)² / (P + 0.8 S), S = 25400 / CN - 254; "+s.DayRunoffOf,
				"TR-55 (1986), equations 2-1 to 2-4 and table 2-2; wet ground: Chow, Maidment & Mays 1988",
				input("rain of a day P", s.Day.Value, "mm", "computed"))
		}
	}
	for _, x := range w.YearlyLoss {
		l.add("water.yearly-soil-loss."+bedID(x.Cover), x.Loss, "t/ha", "erosivity × erodibility × slope factor × cover factor: "+x.Because,
			"Agriculture Handbook 703 (1997); bands: defaults of ours",
			input("run of water", j.longRun().Value, "m", "computed"), input("fall", j.plotSlope().Value, "", "computed"))
	}
}

// bedWater records what winter water does at one bed.
func (l *ledger) bedWater(id string, j judge, d decision, w *BedWater) {
	if w == nil {
		return
	}
	l.add(id+".draining-area", w.Area.InPlot, "m²", "ground from which the steepest way down meets the bed, by following the steepest ascent from its outline",
		"steepest descent on the fitted ground, fourth-order Runge-Kutta",
		input("slope above", d.runOn.length.Value, "m", "computed"))
	for _, e := range w.Edge {
		l.add(fmt.Sprintf("%s.storm-%.0f.pull", id, e.ReturnYears), e.Pull, "Pa", "9810 y sin(atan S) with y = (q n / sqrt S)^0.6 and the roughness n of bare ground",
			"Manning's formula for a wide sheet; TR-55 (1986) table 3-1, from memory",
			input("run-on", e.Flow.Value, "L/s", "computed"),
			input("width of the upslope side", d.runOn.width, "m", "computed"), input("fall S", d.ground.Slope.Value, "", "computed"))
	}
	if w.MovesFrom != nil {
		l.add(id+".compost-moves-from", *w.MovesFrom, "m", "length of slope whose run-on pulls 0.5 Pa on loose compost, 0.2 to 0.7: y = pull / (9810 sin), q = y^(5/3) sqrt S / n, length = q 3 600 000 / (C i)",
			"Shields's criterion for particles of 5 mm and 1100 to 1300 kg/m³; defaults of ours",
			input("rain rate i", j.rate.Value, "mm/h", "computed"), input("runoff coefficient C", d.runOn.flow.Coefficient.Value, "", "default"))
	}
	for _, r := range w.AtRisk {
		l.add(id+".compost-loss."+strings.ReplaceAll(bedID(r.Edge), ",", ""), r.Lost, "kg", "winter erosivity × erodibility × slope factor × cover factor × area, and what run-on takes of the upper edge: "+r.Because,
			"Agriculture Handbook 703 (1997) for the rain; the rest and the band are defaults of ours")
	}
}
