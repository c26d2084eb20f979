package siting

import (
	"math"
	"slices"

	"crossfall/geodata"
	"crossfall/siting/frame"
	"crossfall/siting/takeoff"
)

// count makes the buying list and the taping sheet of the beds that may be built.
func (a *Assessment) count(j judge, decided []decision) error {
	p, b := j.plot, j.brief
	var inputs []takeoff.BedInput
	for _, d := range decided {
		if d.chosen.Class == frame.DoNotBuild {
			continue
		}
		item := takeoffInput(d)
		item.Density = b.density()
		item.Cardboard, item.Cover = a.OrderOfWork.Layers(d.bed.Name)
		if rise, _, ok := d.rise(); ok {
			item.Way = &rise
		}
		inputs = append(inputs, item)
	}
	list, said, err := takeoff.Count(inputs, b.offered(p.Site))
	if err != nil {
		return boardFault(err)
	}
	a.Quantities = list
	a.Quantities.Notes = append([]string{}, said...)
	a.SettingOut = j.setOut(decided)
	return nil
}

// boardFault tells that the boards on sale cannot make the beds.
func boardFault(err error) error {
	all := []error{err}
	for i := 0; i < len(all); { // errors joined to errors joined
		if j, ok := all[i].(interface{ Unwrap() []error }); ok {
			all = slices.Replace(all, i, i+1, j.Unwrap()...)
			continue
		}
		i++
	}
	var faults geodata.Faults
	for _, e := range all {
		faults.Add(geodata.Fault{
			Code: "boards-too-short", Pos: geodata.Pos{File: "site.toml"}, Message: e.Error(),
			Want: "name longer or higher boards under boards.lengths_m and boards.heights_mm, or wish for smaller beds: " +
				"long sides are joined only over their pegs, because a joint opens where none stands behind it, and ends and cross boards are cut from one board",
		})
	}
	return faults
}

// takeoffInput is one bed as it will be built.
func takeoffInput(d decision) takeoff.BedInput {
	c := d.chosen
	in := takeoff.BedInput{
		Name: d.bed.Name, Length: d.bed.Length, Width: d.bed.Width, Volume: d.compost(),
		BaysAcross: c.BaysAcross, BaysAlong: c.BaysAlong, FallGradient: d.ground.Slope.Value,
	}
	if c.Boards != nil {
		in.BoardUphill, in.BoardDownhill = c.Boards.Uphill.Bought*1000, c.Boards.Downhill.Bought*1000
		in.CoursesUphill, in.CoursesDownhill = scaled(c.Boards.Uphill.Stack, 1000), scaled(c.Boards.Downhill.Stack, 1000)
		in.Thickness, in.BoardLife = c.Boards.Thickness*1000, c.Boards.Life
		in.CrossBoards = c.Boards.CrossBoards + max(0, c.BaysAcross-1)
	}
	if c.Pegs != nil {
		in.Pegs, in.PegSize, in.PegLife = c.Pegs.Count, c.Pegs.Size*1000, c.Pegs.Life
		in.PegLength = math.Max(c.Pegs.LengthDownhill, c.Pegs.LengthUphill) * 1000
		for _, x := range spread(d.bed.Length, c.Pegs.PerSide) {
			in.PegsAlong = append(in.PegsAlong, x+d.bed.Length/2)
		}
	}
	return in
}
