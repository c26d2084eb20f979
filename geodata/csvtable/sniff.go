package csvtable

// sniffed is the number of rows that are looked at to find the delimiter.
const sniffed = 100

// delimiterOf finds the delimiter: the one that splits most rows into the same
// number of two or more cells; of equals the one that leaves most cells that
// are numbers, which tells decimal commas between blanks from a delimiter. Of
// equals in both the one named first below is taken. Comma when none does.
func delimiterOf(all []line) rune {
	best, most, mostNumbers := ',', 0, 0
	if len(all) > sniffed {
		all = all[:sniffed]
	}
	for _, d := range []rune{'\t', ';', '|', ',', ' '} {
		n, numbers := agreeing(all, d)
		if n > most || n == most && n > 0 && numbers > mostNumbers {
			best, most, mostNumbers = d, n, numbers
		}
	}
	return best
}

// agreeing counts the rows that have the commonest number of cells, each row
// twice when there are three cells or more, and the numbers in all rows; 0
// when that number of cells is 1.
func agreeing(all []line, delimiter rune) (rows, numbers int) {
	counts := map[int]int{}
	for _, l := range all {
		row, _ := cells(l.text, delimiter)
		counts[len(row)]++
		for _, c := range row {
			if looksNumeric(c.Text) {
				numbers++
			}
		}
	}
	commonest := 0
	for n := range counts {
		if counts[n] > counts[commonest] || counts[n] == counts[commonest] && n > commonest {
			commonest = n
		}
	}
	switch {
	case commonest < 2:
		return 0, 0
	case commonest == 2:
		return counts[2], numbers
	}
	return 2 * counts[commonest], numbers
}
