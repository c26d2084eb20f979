package export

import (
	"encoding/xml"
	"io"

	"crossfall/siting"
)

// gpxFile is the part of GPX 1.1 that holds waypoints, its elements in the order
// of the schema.
type gpxFile struct {
	XMLName  xml.Name   `xml:"http://www.topografix.com/GPX/1/1 gpx"`
	Version  string     `xml:"version,attr"`
	Creator  string     `xml:"creator,attr"`
	Metadata gpxData    `xml:"metadata"`
	Points   []waypoint `xml:"wpt"`
}

type gpxData struct {
	Name        string `xml:"name"`
	Description string `xml:"desc"`
}

// waypoint is a wpt; ele comes before name, then desc, then type (GPX 1.1 schema,
// wptType).
type waypoint struct {
	Latitude    string `xml:"lat,attr"`
	Longitude   string `xml:"lon,attr"`
	Elevation   string `xml:"ele,omitempty"`
	Name        string `xml:"name"`
	Description string `xml:"desc,omitempty"`
	Type        string `xml:"type,omitempty"`
}

// gpxCaution is what a person who walks to waypoints must know. Within 10 m about
// 95 times in 100 is what Al-Azizi and Shafri (2017) found of phones.
const gpxCaution = "A phone comes within about 10 m of these places: use them to find the plot and the marks, and set out with tapes. " +
	"Elevations are metres above the survey's own datum."

// PointsGPX writes points as waypoints of GPX 1.1. ErrNoPlace when the plot's
// longitude and latitude are not known.
func PointsGPX(w io.Writer, name string, f siting.Frame, points []Point) error {
	on, ok := placed(f)
	if !ok {
		return ErrNoPlace
	}
	g := gpxFile{Version: "1.1", Creator: "Crossfall", Metadata: gpxData{name, gpxCaution}}
	if on.said != "" {
		g.Metadata.Description += " Places were " + on.said + "."
	}
	for _, p := range points {
		q := on.lonLat(p.At)
		g.Points = append(g.Points, waypoint{
			Latitude: fixed(q[1], degreeDecimals), Longitude: fixed(q[0], degreeDecimals),
			Elevation: fixed(p.Height, 3), Name: p.Name, Description: p.Note, Type: p.Kind,
		})
	}
	if _, err := io.WriteString(w, xml.Header); err != nil {
		return err
	}
	e := xml.NewEncoder(w)
	e.Indent("", " ")
	if err := e.Encode(g); err != nil {
		return err
	}
	_, err := io.WriteString(w, "\n")
	return err
}
