package levelbook_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/levelbook"

	"github.com/stretchr/testify/require"
)

// placed asks that every fault names the file and a code, and has a sane place.
func placed(t *testing.T, file string, faults geodata.Faults) {
	t.Helper()
	for _, f := range faults {
		require.Equal(t, file, f.Pos.File)
		require.NotEmpty(t, f.Code)
		require.NotEmpty(t, f.Message)
		require.GreaterOrEqual(t, f.Pos.Line, 0)
		require.GreaterOrEqual(t, f.Pos.Col, 0)
	}
}

func FuzzReadLevels(f *testing.F) {
	f.Add([]byte(rode))
	f.Add([]byte("station;back;inter;fore;distance\nA;1,2;;;0\nCP;;;1,3;5\nCP;1,1;;;\nA;;;0,9;10\n"))
	f.Add([]byte("pt\tBS (ft)\tIS\tFS\tRL\nA\t4' 6\"\t\t\t100\nB\t\t-3\t\t\nB\t5\t\t\t\nA\t\t\t4\t\n"))
	f.Add([]byte("station,back,fore\n,,\nA,1e400,\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		book, faults := levelbook.ReadLevels(bytes.NewReader(data), "levels.csv", 0)
		placed(t, "levels.csv", faults)
		for _, opt := range []levelbook.Options{{}, {ByDistance: true, DistributeAnyway: true, Collimation: 0.001}} {
			red, found := book.Reduce(opt)
			placed(t, "levels.csv", found)
			for _, r := range red.Runs {
				for _, c := range r.Checks {
					require.True(t, c.OK, "%+v", c)
				}
			}
			_, err := json.Marshal(red)
			require.NoError(t, err)
		}
	})
}

func FuzzReadTies(f *testing.F) {
	f.Add([]byte(tieHeader + "P,tie,shed,,8,,left\nP,tie,gate,,6\nP,tie,post,,15.2\n"))
	f.Add([]byte(tieHeader + "P,offset,shed,gate,8,3,right,slope,,1 in 12\nQ,clinometer,P,,8,35-30,,,,4.5,1.6,1.6\n"))
	f.Add([]byte(tieHeader + ",pace,,,75,,,,,,,,100\nA,traverse,shed,,90,40,,paces\nshed,traverse,A,,270,41,,paces\n"))
	f.Add([]byte(tieHeader + "G,grid,shed,gate,1,1,left,,,,,,,serpentine 3x3\nG1,water tube,peg,,1.2,1\nG2,a-frame,G1,,0.1,,,,,,,,3\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		ties, faults := levelbook.ReadTies(bytes.NewReader(data), "ties.csv", 0)
		placed(t, "ties.csv", faults)
		sol, found := ties.Solve(marks, nil, levelbook.TieOptions{})
		placed(t, "ties.csv", found)
		_, told := levelbook.Heights(nil, sol)
		for _, f := range told {
			require.NotEmpty(t, f.Code)
		}
		_, err := json.Marshal(sol)
		require.NoError(t, err)
	})
}
