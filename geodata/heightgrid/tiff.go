package heightgrid

import (
	"context"
	"fmt"
	"math"

	"crossfall/geodata"
)

// openTIFF reads a GeoTIFF (OGC 19-008r4, version 1.1) with one height for each
// place: 8 to 64 bits, whole or floating, in strips or tiles, packed by LZW,
// Deflate or PackBits or not at all. With several values for each place the
// first is taken.
//
// Faults, beside those of every format: tiff-damaged, tiff-no-picture,
// tiff-picture, tiff-compression, tiff-sample, tiff-predictor, tiff-block-size,
// tiff-not-placed, grid-rotated, grid-mirrored, tiff-metadata, grid-unit.
func openTIFF(f file) (opened, error) {
	t, first, err := tiffStart(f)
	if err != nil {
		return opened{}, err
	}
	d, err := t.mainPicture(first)
	if err != nil {
		return opened{}, err
	}
	keys, err := t.geoKeys(d)
	if err != nil {
		return opened{}, err
	}
	ref, err := keys.reference()
	if err != nil {
		return opened{}, err
	}
	im, err := t.image(d)
	if err != nil {
		return opened{}, err
	}
	l, err := t.lattice(d, im, keys)
	if err != nil {
		return opened{}, err
	}
	meta, notes, err := t.metadata(d, im.sample)
	if err != nil {
		return opened{}, err
	}
	im.meta = meta
	if meta.unit != 0 && ref.HeightUnit == 0 {
		ref.HeightUnit = meta.unit
	}
	notes = append(notes, im.findPlaneOrder()...)
	if im.bands > 1 {
		notes.Add(geodata.Fault{Code: "tiff-first-band", Severity: geodata.Note,
			Message: fmt.Sprintf("the file holds %d values for each place; the first is taken as the height", im.bands)})
	}
	return opened{
		format: "GeoTIFF", ref: ref, noData: meta.missing, notes: notes, place: l,
		cells: func(ctx context.Context, w window, z []float64, t *tidier) (geodata.Faults, error) {
			return im.read(ctx, w, z, math.NaN(), t)
		},
	}, nil
}

// mainPicture follows the chain of directories to the first that is neither a
// reduced copy nor a mask.
func (t tiffFile) mainPicture(at int64) (directory, error) {
	seen := map[int64]bool{}
	for range mostDirectories {
		if at == 0 || seen[at] {
			break
		}
		seen[at] = true
		d, next, err := t.directoryAt(at)
		if err != nil {
			return nil, err
		}
		sub, err := t.number(d, tagNewSubfile, 0)
		if err != nil {
			return nil, err
		}
		old, err := t.number(d, tagSubfile, 0)
		if err != nil {
			return nil, err
		}
		if sub&(subfileReduced|subfileMask) == 0 && old != oldSubfileReduced {
			return d, nil
		}
		at = next
	}
	return nil, refuse("tiff-no-picture", "the file holds no grid of its own, only reduced copies or masks", "download or export the grid again")
}

// image is how the values of a grid lie in the file.
type image struct {
	t             tiffFile
	width, height int
	blockW        int
	blockH        int
	across, down  int // blocks in a row of blocks, rows of blocks
	offsets       field
	counts        field
	packing       uint64
	predictor     uint64
	bitsReversed  bool
	sample        sample
	bands         int // values for each place
	together      int // of them side by side in a block
	southFirst    bool
	lowPlaneFirst bool // see findPlaneOrder
	meta          metadata
}

// image reads and checks how the values lie in the file.
func (t tiffFile) image(d directory) (*image, error) {
	im := &image{t: t}
	if err := im.readSize(d); err != nil {
		return nil, err
	}
	if err := im.readSample(d); err != nil {
		return nil, err
	}
	if err := im.readPacking(d); err != nil {
		return nil, err
	}
	return im, im.checkBlocks()
}

// readSize reads the size of the grid and of its blocks. A grid of strips is
// one of blocks as wide as itself; without a number of rows it is one strip.
func (im *image) readSize(d directory) error {
	offsets, counts, tags := uint16(tagStripOffsets), uint16(tagStripCounts), [2]uint16{tagWidth, tagRowsPerStrip}
	_, strips := d[tagStripOffsets]
	if _, tiled := d[tagTileWidth]; tiled || !strips {
		offsets, counts, tags = tagTileOffsets, tagTileCounts, [2]uint16{tagTileWidth, tagTileLength}
	}
	var n [4]uint64
	for i, tag := range [4]uint16{tagWidth, tagLength, tags[0], tags[1]} {
		absent := uint64(0)
		if tag == tagRowsPerStrip {
			absent = n[1]
		}
		v, err := im.t.number(d, tag, absent)
		if err != nil {
			return err
		}
		if tag == tagRowsPerStrip {
			v = min(v, n[1]) // 2³²-1 stands for one strip
		}
		if v == 0 || v > mostWidth {
			return refuse("tiff-damaged", fmt.Sprintf("the file claims a width, height or block size of %d", v), "download or export the grid again")
		}
		n[i] = v
	}
	im.width, im.height, im.blockW, im.blockH = int(n[0]), int(n[1]), int(n[2]), int(n[3])
	im.across, im.down = ceilDiv(im.width, im.blockW), ceilDiv(im.height, im.blockH)
	var okOffsets, okCounts bool
	im.offsets, okOffsets = d[offsets]
	im.counts, okCounts = d[counts]
	if !okOffsets || !okCounts {
		return refuse("tiff-damaged", "the file does not say where its values lie", "download or export the grid again")
	}
	return nil
}

func ceilDiv(a, b int) int { return int((int64(a) + int64(b) - 1) / int64(b)) }

// checkBlocks checks the number and the size of the blocks. A block that is not
// packed may be of any size, for its rows are read one by one.
func (im *image) checkBlocks() error {
	need := uint64(im.across) * uint64(im.down)
	if im.offsets.count < need || im.counts.count < need {
		return refuse("tiff-damaged", fmt.Sprintf("the grid has %d blocks, but the file places only %d of them", need, min(im.offsets.count, im.counts.count)), "download or export the grid again")
	}
	row := float64(im.blockW) * float64(im.together) * float64(im.sample.bytes)
	block := row * float64(im.blockH)
	if row > mostBlockBytes || im.packing != packNone && block > mostBlockBytes {
		return refuse("tiff-block-size",
			fmt.Sprintf("the file is compressed in blocks of %.0f MiB; blocks over %d MiB are not read", math.Min(block, 1e15)/(1<<20), mostBlockBytes>>20),
			"export the grid again in tiles, or cut the part around the plot out of it")
	}
	return nil
}

// rowBytes is the length of a row of a block, unpacked.
func (im *image) rowBytes() int { return im.blockW * im.together * im.sample.bytes }
