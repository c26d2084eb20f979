package plotfolder_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAppendHeightKeepsToTheHeader(t *testing.T) {
	reading := plotfolder.NewReading{Name: "h9", X: 3.048, Y: 6.096, Z: 1.524, Note: "by the gate, low"}
	for _, c := range []struct{ name, before, row string }{
		{"plain", "name,x,y,z,note\na,0,0,1\n", `h9,3.048,6.096,1.524,"by the gate, low"`},
		{"no end of line", "name,x,y,z,note\na,0,0,1", `h9,3.048,6.096,1.524,"by the gate, low"`},
		{"feet", "name,x (ft),y (ft),z (ft)\na,0,0,1\n", "h9,10,20,5"},
		{"other order", "z (mm);y;x;sigma\n1000;0;0;5\n", "1524;6.096;3.048;"},
		{"decimal comma", "x;y;z\n0,5;0,25;1,05\n", "3,048;6,096;1,524"},
		{"tabs", "x\ty\tz\tname\n0\t0\t1\ta\n", "3.048\t6.096\t1.524\th9"},
		{"header only", "# comment\nname,x (m),y (m),z (m),note\n", `h9,3.048,6.096,1.524,"by the gate, low"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "heights.csv")
			require.NoError(t, os.WriteFile(path, []byte(c.before), 0o600))
			require.NoError(t, plotfolder.AppendHeight(path, geodata.Site{}, reading))
			after, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.Equal(t, strings.TrimSuffix(c.before, "\n")+"\n"+c.row+"\n", string(after))
		})
	}
}

func TestAppendHeightRefusesWhatItWouldSpoil(t *testing.T) {
	for name, text := range map[string]string{
		"no header": "0,0,1\n5,0,2\n", "degrees": "lon,lat,z\n-3.5,50.7,1\n", "no z": "name,x,y\na,0,0\n", "empty": "",
	} {
		path := filepath.Join(t.TempDir(), "heights.csv")
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		assert.ErrorIs(t, plotfolder.AppendHeight(path, geodata.Site{}, plotfolder.NewReading{}), plotfolder.ErrColumns, name)
		after, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, text, string(after), "nothing was written")
	}
}
