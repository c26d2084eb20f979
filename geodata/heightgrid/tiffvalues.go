package heightgrid

import (
	"bytes"
	"math"
)

// The tags that are read: TIFF 6.0 (Adobe, 1992), GeoTIFF (OGC 19-008r4) and
// those in which GDAL keeps scale, offset and the mark for missing values.
const (
	tagNewSubfile      = 254
	tagSubfile         = 255
	tagWidth           = 256
	tagLength          = 257
	tagBits            = 258
	tagCompression     = 259
	tagPhotometric     = 262
	tagFillOrder       = 266
	tagStripOffsets    = 273
	tagSamples         = 277
	tagRowsPerStrip    = 278
	tagStripCounts     = 279
	tagPlanar          = 284
	tagPredictor       = 317
	tagTileWidth       = 322
	tagTileLength      = 323
	tagTileOffsets     = 324
	tagTileCounts      = 325
	tagSampleFormat    = 339
	tagPixelScale      = 33550
	tagTiePoints       = 33922
	tagTransformation  = 34264
	tagGeoKeys         = 34735
	tagGeoDoubles      = 34736
	tagScaleAndOffset  = 42112
	tagMissing         = 42113
	mostSamples        = 4096      // values of one place; default of ours
	mostWidth          = 1 << 29   // columns or rows of a grid or block; default of ours
	mostBlockBytes     = 256 << 20 // of one packed strip or tile; default of ours
	subfileReduced     = 1
	subfileMask        = 4
	oldSubfileReduced  = 2
	photometricRGB     = 2
	photometricPalette = 3
)

// number reads the first value of a tag that holds whole numbers; absent tags
// give the default.
func (t tiffFile) number(d directory, tag uint16, absent uint64) (uint64, error) {
	f, ok := d[tag]
	if !ok || f.count == 0 {
		return absent, nil
	}
	v, err := t.uints(f, 0, 1)
	if err != nil {
		return 0, err
	}
	return v[0], nil
}

// numbers reads all whole numbers of a tag; nil when it is absent.
func (t tiffFile) numbers(d directory, tag uint16) ([]uint64, error) {
	f, ok := d[tag]
	if !ok {
		return nil, nil
	}
	n, err := f.whole()
	if err != nil {
		return nil, err
	}
	return t.uints(f, 0, n)
}

// floats reads all numbers of a tag of type 11 or 12 (or whole ones); nil when
// it is absent.
func (t tiffFile) floats(d directory, tag uint16) ([]float64, error) {
	f, ok := d[tag]
	if !ok {
		return nil, nil
	}
	n, err := f.whole()
	if err != nil {
		return nil, err
	}
	out := make([]float64, n)
	if f.kind != 11 && f.kind != 12 {
		whole, err := t.uints(f, 0, n)
		for i, v := range whole {
			out[i] = float64(v)
		}
		return out, err
	}
	b, err := t.raw(f, 0, n)
	if err != nil {
		return nil, err
	}
	for i := range out {
		if f.kind == 11 {
			out[i] = float64(math.Float32frombits(t.order.Uint32(b[4*i:])))
		} else {
			out[i] = math.Float64frombits(t.order.Uint64(b[8*i:]))
		}
	}
	return out, nil
}

// text reads a tag as text up to its first zero byte; empty when it is absent.
func (t tiffFile) text(d directory, tag uint16) (string, error) {
	f, ok := d[tag]
	if !ok {
		return "", nil
	}
	n, err := f.whole()
	if err != nil || kindSize(f.kind) != 1 {
		return "", err
	}
	b, err := t.raw(f, 0, n)
	if err != nil {
		return "", err
	}
	b, _, _ = bytes.Cut(b, []byte{0})
	return string(b), nil
}
