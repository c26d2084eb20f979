package csvtable

// sniffed is the number of rows that are looked at to find the delimiter.
const sniffed = 100

// delimiterOf finds the delimiter: the one that splits most rows into the same
// number of two or more cells. Of equals the one named first below is taken:
// commas come after semicolons because of decimal commas, and blanks come last
// because they stand in names and headers. Comma when none does.
func delimiterOf(all []line) rune {
	best, most := ',', 0
	if len(all) > sniffed {
		all = all[:sniffed]
	}
	for _, d := range []rune{'\t', ';', '|', ',', ' '} {
		if n := agreeing(all, d); n > most {
			best, most = d, n
		}
	}
	return best
}

// agreeing counts the rows that have the commonest number of cells, each row
// twice when there are three cells or more; 0 when that number is 1.
func agreeing(all []line, delimiter rune) int {
	counts := map[int]int{}
	for _, l := range all {
		row, _ := cells(l.text, delimiter)
		counts[len(row)]++
	}
	commonest := 0
	for n := range counts {
		if counts[n] > counts[commonest] || counts[n] == counts[commonest] && n > commonest {
			commonest = n
		}
	}
	switch {
	case commonest < 2:
		return 0
	case commonest == 2:
		return counts[2]
	}
	return 2 * counts[commonest]
}
