package cli

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"crossfall/cmd/crossfall/internal/export"
	"crossfall/cmd/crossfall/internal/report"
	"crossfall/siting"
)

// sheetFiles are the ends of names of files that setout writes.
var sheetFiles = []string{".html", ".htm", ".csv", ".geojson", ".json", ".gpx", ".dxf"}

// sheetFile writes the sheet to print, or its points, as the file's name says.
func sheetFile(w io.Writer, path string, a *siting.Assessment, o setoutOptions) error {
	points := export.Points(a, o.units)
	name := strings.TrimSpace(a.Name + " setting out")
	switch strings.ToLower(filepath.Ext(path)) {
	case ".csv":
		return export.PointsCSV(w, points, o.units)
	case ".geojson", ".json":
		return export.PointsGeoJSON(w, name, a.Frame, points)
	case ".dxf":
		return export.PointsDXF(w, points)
	case ".gpx":
		err := export.PointsGPX(w, name, a.Frame, points)
		if errors.Is(err, export.ErrNoPlace) {
			return fmt.Errorf("%w: give the plot in longitude and latitude, or take another kind of file", err)
		}
		return err
	}
	return report.WriteSetOut(w, a, o.how, report.Options{Units: o.units})
}
