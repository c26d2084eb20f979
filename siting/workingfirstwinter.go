package siting

import (
	"crossfall/geodata"
	"crossfall/siting/caution"
	"crossfall/siting/firstwinter"
)

// orderOfWork records the figures of the order of work.
func (l *ledger) orderOfWork(j judge, p firstwinter.Plan) {
	if s := p.Season.Share; s != nil {
		l.add("work.wet-season-share", geodata.Exactly(*s), "percent", "rain of the six months "+firstwinter.Months(p.Season.First, p.Season.Last)+" over that of the year: "+p.Season.Why,
			"monthly means of rain.csv; that 55 % mark a wet season: default of ours")
	}
	for _, w := range j.brief.allWeeds() {
		id := "work.cover." + bedID(w.Common)
		if w.Leave != "" {
			continue
		}
		l.add(id+".layers", geodata.Exactly(float64(w.Layers())), "", "least n with 0.30^n at most the share of light: ln(share) / ln 0.30, rounded up", firstwinter.CommonPractice,
			input("light that one layer of woven cover lets through", 100*firstwinter.LightThrough, "percent", "default"),
			input("light that it may have", 100*w.Light, "percent", "default"))
		l.add(id+".months", w.Months, "months", "under the cover, and lifted only in a month in which the weed would show", firstwinter.CommonPractice)
	}
	for _, x := range p.Wet {
		l.add(bedID(x.Bed)+".work.wet-load", x.Wet, "kg", "F / (g (sin a + 0.15 cos a)) less the barrow, F 70 to 100 N, a = atan of the way's steepest rise",
			"guideline forces: Health and Safety Executive, INDG143; rolling resistance of wet, soft ground: default of ours",
			input("rise of the way", x.Rise, "percent", "computed"), input("barrow", j.brief.Barrow, "kg", from(j.plot.Site.Carrying.Barrow != nil)),
			input("force", caution.PushMan, "N", "default"))
	}
}
