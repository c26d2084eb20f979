package plotfolder_test

import (
	"testing"

	"crossfall/geodata"

	"github.com/stretchr/testify/assert"
)

// Blunders that a reader can see, each told as what it is.
func TestBlunders(t *testing.T) {
	fs := faults(t, files{"heights.csv": "name,x,y,z\na,-3.5,50.7,30\nb,-3.4999,50.7,31\nc,-3.5,50.7001,32\nd,-3.4999,50.7001,33\n"})
	assert.Equal(t, []string{"heights-at-one-place"}, codes(fs, geodata.Problem), "degrees as metres")

	fs = faults(t, files{"heights.csv": "name,x,y,z\na,0,0,30.1\nb,10,0,30.3\nc,0,10,30.4\nd,10,10,99.5\ne,5,5,99.1\n"})
	f := find(t, fs, "heights-in-two-units")
	assert.Equal(t, "e, d", f.Read)
	for name, text := range map[string]string{
		"a high bank":         "name,x,y,z\na,0,0,2.1\nb,10,0,2.3\nc,0,10,2.4\nd,10,10,7.4\n",
		"a slip of a digit":   "name,x,y,z\na,0,0,30.1\nb,10,0,30.3\nc,0,10,30.4\nd,10,10,80.4\n",
		"heights about zero":  "name,x,y,z\na,0,0,0.1\nb,10,0,0.3\nc,0,10,0.4\nd,10,10,0.9\n",
		"all of them in feet": "name,x,y,z (ft)\na,0,0,98.1\nb,10,0,99.3\nc,0,10,99.4\nd,10,10,99.9\n",
	} {
		p := plot(t, files{"heights.csv": text})
		assert.NotEmpty(t, p.Spots, name)
	}

	exchanged := files{"heights.csv": "name,lat,lon,z\na,-3.5,50.7,30\nb,-3.4999,50.7,31\nc,-3.5,50.7001,32\n", "site.toml": "[place]\nlatitude = 50.7\n"}
	assert.Contains(t, find(t, plot(t, exchanged).Notes, "place-contradicts").Want, "look exchanged")
}
