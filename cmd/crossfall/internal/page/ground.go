package page

import (
	"fmt"
	"math"
	"net/http"
	"strconv"

	"crossfall/geodata"
	"crossfall/terrain/surface"
	"crossfall/terrain/walk"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// groundView is the fitted ground on a lattice, for looking at.
type groundView struct {
	Revision string      `json:"revision"`
	Origin   orb.Point   `json:"origin"` // the south-western node
	Cell     float64     `json:"cell_m"`
	Cols     int         `json:"cols"`
	Rows     int         `json:"rows"`
	Z        []*float64  `json:"height_m"` // row by row from the south west; null outside the plot
	Boundary []orb.Point `json:"boundary"`
}

// Nodes along the longer side.
const usualNodes, mostNodes = 40, 120

func (s *Server) getGround(w http.ResponseWriter, r *http.Request) {
	nodes := usualNodes
	if text := r.URL.Query().Get("nodes"); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil || n < 2 || n > mostNodes {
			fail(w, fieldError{"nodes", fmt.Sprintf("a whole number from 2 to %d", mostNodes)})
			return
		}
		nodes = n
	}
	plot, revision, err := s.garden.read()
	if err != nil {
		fail(w, err)
		return
	}
	fit, err := walk.FitPlot(plot)
	if err != nil {
		fail(w, fieldError{"", err.Error()})
		return
	}
	v := latticeOf(plot, fit, nodes)
	v.Revision = revision
	write(w, http.StatusOK, v)
}

func latticeOf(plot *geodata.Plot, fit *surface.Fit, nodes int) groundView {
	b := plot.Boundary.Bound()
	cell := math.Max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]) / float64(nodes-1)
	v := groundView{
		Origin: b.Min, Cell: cell, Boundary: plot.Boundary[0],
		Cols: int(math.Ceil((b.Max[0]-b.Min[0])/cell-1e-9)) + 1, Rows: int(math.Ceil((b.Max[1]-b.Min[1])/cell-1e-9)) + 1,
	}
	for row := range v.Rows {
		for col := range v.Cols {
			v.Z = append(v.Z, heightIn(plot, fit, orb.Point{b.Min[0] + float64(col)*cell, b.Min[1] + float64(row)*cell}, cell))
		}
	}
	return v
}

// heightIn is the ground's height at a node in the plot or within a cell of its
// edge, so that the edge is not lost; null elsewhere.
func heightIn(plot *geodata.Plot, fit *surface.Fit, q orb.Point, cell float64) *float64 {
	if !planar.PolygonContains(plot.Boundary, q) && planar.DistanceFrom(plot.Boundary[0], q) > cell/2 {
		return nil
	}
	z, ok := fit.HeightAt(q)
	if !ok || math.IsNaN(z) {
		return nil
	}
	z = math.Round(z*1000) / 1000
	return &z
}
