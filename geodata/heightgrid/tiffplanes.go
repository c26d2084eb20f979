package heightgrid

import (
	"context"
	"encoding/binary"
	"math"

	"crossfall/geodata"
)

// findPlaneOrder looks whether the bytes of predictor 3 are sorted the wrong
// way round, the least significant first. libtiff of 2023 (as in GDAL 3.6.2)
// writes big-endian files so and then cannot read them itself: 52.76 becomes
// 0.034. The two ways are tried on a few rows over the grid, and the published
// way is left only when the other gives clearly more heights that can be
// ground. Rows that cannot be read do not count; reading them will tell.
func (im *image) findPlaneOrder() geodata.Faults {
	if im.predictor != 3 || im.t.order != binary.BigEndian {
		return nil
	}
	published := im.likelyHeights()
	im.lowPlaneFirst = true
	if im.likelyHeights() > 2*published {
		return geodata.Faults{{
			Code: "tiff-bytes-turned", Severity: geodata.Warning,
			Message: "the program that wrote the file sorted the bytes of the heights the wrong way round; they were turned about",
			Want:    "compare a few heights with a map",
		}}
	}
	im.lowPlaneFirst = false
	return nil
}

// likelyHeights counts the values of a few rows that can be heights (the first
// of their blocks, which cost least to unpack): those of ground in any unit, the mark for a missing height, and not the tiny numbers
// that wrongly sorted bytes give.
func (im *image) likelyHeights() int {
	const (
		looked      = 9 // rows
		widest      = 4096
		least, most = 1e-3, 3e4 // default of ours
	)
	z := make([]float64, min(im.width, widest))
	likely := 0
	for i := range looked {
		row := (im.down - 1) * i / (looked - 1) * im.blockH
		if !im.southFirst {
			row = im.height - 1 - row
		}
		leftOut := math.Inf(1) // counts as no height
		if _, err := im.read(context.Background(), window{row: row, cols: len(z), rows: 1}, z, leftOut, nil); err != nil {
			continue
		}
		for _, v := range z {
			if a := math.Abs(v); v != v || a == 0 || a >= least && a <= most {
				likely++
			}
		}
	}
	return likely
}
