package siting

import "fmt"

// stormClaimed is what may be read from a storm's figures.
func stormClaimed() []string {
	return []string{
		"how much water leaves by which side, is taken up and stands, within the bands of the runs",
		"which board water stands against, and which it first runs over and after how much rain",
		"where water is deepest and quickest, as means over squares of half a metre",
		"whether the beds make water pull more or less on the ground, where that holds in 25 of 27 cases",
	}
}

// stormNotClaimed is what may not.
func stormNotClaimed() []string {
	return []string{
		"no weight of soil or compost, no depth of wear, no years, and nothing is called safe",
		"no jets or spouts beside boards and at steps: there only depths and volumes hold",
		"nothing within half a metre: the greatest value of a single place grows as cells shrink",
		"compost floats where a bed is flooded, whatever the pull of the water; splash is left out",
		"seepage under a board is told by Lane's rule for water that stands always; in a storm it stands for minutes to hours",
		"paths, pits and walls that the heights do not show are not in the ground that was played",
	}
}

// assumed is what a storm was played with that nobody measured.
func (s *stormPlay) assumed() []string {
	texture := "a texture of soil that is not known: uptake from clay's to loam's"
	if s.brief.Texture != "" {
		texture = fmt.Sprintf("the winter uptake of %s, from three times slower to three times faster", s.brief.Texture)
	}
	all := []string{
		texture,
		fmt.Sprintf("soaked compost passes %.0f to %.0f mm/h, and is as rough as dug ground (defaults)", compostUptake[0], compostUptake[2]),
		"water leaves over the boundary wherever the ground falls outward there",
	}
	if s.brief.UphillLength > 0 {
		return append(all, fmt.Sprintf("%.0f m of slope like the plot's own drain on to it from above", s.brief.UphillLength))
	}
	return append(all, "no water comes over the boundary from above (ground.uphill_length_m in site.toml says how much slope drains on to it)")
}

// Said is a storm of one return period in short.
func (s StormPlayed) Said() []string {
	out := []string{fmt.Sprintf("the storm met once in %.0f years: %.0f mm in %.0f minutes on soaked ground, %d of %d runs",
		s.ReturnYears, s.Depth, s.Minutes, s.Runs, stormRuns)}
	if s.Runs == 0 {
		return out
	}
	if s.FirstOver != "" {
		out = append(out, "water first runs over "+s.FirstOver)
	} else if len(s.Boards) > 0 {
		out = append(out, "water runs over no board in the middle run")
	}
	return append(out, s.Rank)
}
