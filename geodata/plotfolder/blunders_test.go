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

// A walk recorded by a phone without waypoints is taken for what it is worth.
func TestATrackWithoutWaypointsIsTaken(t *testing.T) {
	text := `<gpx version="1.1"><trk><trkseg>`
	for _, at := range [][3]string{{"50.7", "-3.5", "30"}, {"50.7001", "-3.5", "31"}, {"50.7001", "-3.4999", "32"}, {"50.7", "-3.4999", "31"}} {
		text += `<trkpt lat="` + at[0] + `" lon="` + at[1] + `"><ele>` + at[2] + `</ele></trkpt>`
	}
	p := plot(t, files{"heights.gpx": text + "</trkseg></trk></gpx>"})
	assert.Len(t, p.Spots, 4)
	assert.InDelta(t, 10, p.Spots[0].Sigma, 1e-12)
	assert.InDelta(t, 3.46, p.Spots[0].PositionError, 0.01)
	find(t, p.Notes, "track-taken")
	find(t, p.Notes, "gpx-heights-rough")
}
