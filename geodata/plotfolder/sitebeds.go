package plotfolder

import "crossfall/geodata"

// checkBeds tells of wishes for beds that contradict one another.
func (d *siteText) checkBeds(b geodata.BedWish, c *collector) {
	if b.Most && b.Count != nil && !d.leftOut("beds.count", 0) {
		pos, read := d.find("beds.count", 0)
		c.problem(pos, "site-beds-counted-twice", read, "a number of beds is wished for, and as many as fit",
			"leave out count, or write most = false")
	}
	if b.PairPath == nil {
		return
	}
	pos, read := d.find("beds.pair_path_m", 0)
	switch {
	case !b.Pairs:
		c.problem(pos, "site-pair-path", read, "a path between the rows of a pair is given, and pairs are not wished for",
			"write pairs = true under [beds], or leave pair_path_m out")
	case b.Path != nil && *b.PairPath > *b.Path:
		c.problem(pos, "site-pair-path", read, "the path between the rows of a pair is wider than the paths between beds",
			"write pair_path_m no wider than path_m: it is the narrow one")
	}
}
