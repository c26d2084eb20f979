package levelbook_test

import (
	"fmt"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/levelbook"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestMostRowsOfABook(t *testing.T) {
	book := func(rows int) (levelbook.Book, geodata.Faults) {
		text := "station,back,inter,fore,level\nBM,1.5,,,10\n" + strings.Repeat("A,,1.2,,\n", rows-1)
		return levelbook.ReadLevels(strings.NewReader(text), "levels.csv", geodata.Metre)
	}
	got, faults := book(geodata.MostBookRows)
	require.Zero(t, faults.Problems(), "%v", faults)
	assert.Equal(t, geodata.MostBookRows, len(got.Rows))
	_, faults = book(geodata.MostBookRows + 1)
	require.Len(t, faults, 1)
	assert.Equal(t, `levels.csv:10002: the book has 10001 rows, over 10000 (read "A,,1.2,,"); give the part that is needed`, faults[0].Error())
}

func TestMostStationsOfGrids(t *testing.T) {
	ties := func(order ...string) (levelbook.Ties, geodata.Faults) {
		text := "point,method,from,to,a,b,side,order\n"
		for i, o := range order {
			text += fmt.Sprintf("G%d,grid,shed,gate,1,1,left,%s\n", i, o)
		}
		return levelbook.ReadTies(strings.NewReader(text), "ties.csv", geodata.Metre)
	}
	got, faults := ties("raster 100x99", "serpentine 10x10")
	require.Empty(t, faults)
	assert.Equal(t, geodata.MostHeights, got.Rows[0].Nodes*got.Rows[0].Lines+got.Rows[1].Nodes*got.Rows[1].Lines)
	got, faults = ties("raster 100x99", "raster 10x10", "serpentine 1x1")
	require.Len(t, faults, 1)
	assert.Equal(t, `ties.csv:4:28: the grids have over 10000 stations up to here (read "serpentine 1x1"); walk fewer lines, further apart`, faults[0].Error())
	assert.Len(t, got.Rows, 2, "a grid too large is not kept")
}
