package heightgrid

import (
	"encoding/binary"
	"fmt"
	"math"
	"slices"
)

// sample is the type of the values.
type sample struct {
	bytes int
	class uint64
}

// Classes of values, as the tag SampleFormat counts them (TIFF 6.0, section 19).
const (
	unsigned = 1
	signed   = 2
	floating = 3
	untyped  = 4 // taken as unsigned, as the specification says
)

// name is the type in words.
func (s sample) name() string {
	words := map[uint64]string{unsigned: "whole", signed: "signed whole", floating: "floating"}
	return fmt.Sprintf("%d-bit %s numbers", 8*s.bytes, words[s.class])
}

// readSample reads the type of the values and how many of them a place has.
func (im *image) readSample(d directory) error {
	bands, err := im.t.number(d, tagSamples, 1)
	if err != nil {
		return err
	}
	if bands == 0 || bands > mostSamples {
		return refuse("tiff-damaged", fmt.Sprintf("the file claims %d values for each place", bands), "export the heights alone")
	}
	planar, err := im.t.number(d, tagPlanar, 1)
	if err != nil {
		return err
	}
	im.bands, im.together = int(bands), int(bands)
	if planar == 2 {
		im.together = 1
	}
	bits, err := im.t.numbers(d, tagBits)
	if err != nil {
		return err
	}
	classes, err := im.t.numbers(d, tagSampleFormat)
	if err != nil {
		return err
	}
	if len(bits) == 0 {
		bits = []uint64{1}
	}
	if len(classes) == 0 {
		classes = []uint64{unsigned}
	}
	other := func(v []uint64) bool { return slices.ContainsFunc(v, func(b uint64) bool { return b != v[0] }) }
	if im.together > 1 && (other(bits) || other(classes)) {
		return refuse("tiff-sample", "the file holds values of several sizes for each place", "export the heights alone")
	}
	if err := im.sample.set(bits[0], classes[0]); err != nil {
		return err
	}
	return im.refusePictures(d)
}

// set takes over a size and class that are read.
func (s *sample) set(bits, class uint64) error {
	if class == untyped {
		class = unsigned
	}
	whole := class == unsigned || class == signed
	switch {
	case whole && (bits == 8 || bits == 16 || bits == 32 || bits == 64), class == floating && (bits == 32 || bits == 64):
		*s = sample{int(bits) / 8, class}
		return nil
	case class > floating:
		return refuse("tiff-sample", "the file holds complex numbers, not heights", "export the heights as 32-bit floating numbers")
	}
	return refuse("tiff-sample", fmt.Sprintf("the file holds values of %d bits, which are not read", bits), "export the heights as 32-bit floating numbers")
}

// refusePictures refuses coloured pictures: their numbers are colours.
func (im *image) refusePictures(d directory) error {
	photometric, err := im.t.number(d, tagPhotometric, 1)
	if err != nil {
		return err
	}
	coloured := photometric == photometricRGB && im.sample.bytes == 1 && im.bands >= 3
	if coloured || photometric == photometricPalette {
		return refuse("tiff-picture", "the file is a coloured picture; its numbers are colours, not heights", "export the heights themselves, not a shaded or coloured map of them")
	}
	return nil
}

// convert turns n values, the bytes of which are little-endian and stride
// apart, into numbers.
func (im *image) convert(z []float64, b []byte) {
	stride := im.together * im.sample.bytes
	le := binary.LittleEndian
	switch im.sample {
	case sample{1, unsigned}:
		for i := range z {
			z[i] = float64(b[i*stride])
		}
	case sample{1, signed}:
		for i := range z {
			z[i] = float64(int8(b[i*stride]))
		}
	case sample{2, unsigned}:
		for i := range z {
			z[i] = float64(le.Uint16(b[i*stride:]))
		}
	case sample{2, signed}:
		for i := range z {
			z[i] = float64(int16(le.Uint16(b[i*stride:])))
		}
	case sample{4, unsigned}:
		for i := range z {
			z[i] = float64(le.Uint32(b[i*stride:]))
		}
	case sample{4, signed}:
		for i := range z {
			z[i] = float64(int32(le.Uint32(b[i*stride:])))
		}
	case sample{8, unsigned}:
		for i := range z {
			z[i] = float64(le.Uint64(b[i*stride:]))
		}
	case sample{8, signed}:
		for i := range z {
			z[i] = float64(int64(le.Uint64(b[i*stride:])))
		}
	case sample{4, floating}:
		for i := range z {
			z[i] = float64(math.Float32frombits(le.Uint32(b[i*stride:])))
		}
	case sample{8, floating}:
		for i := range z {
			z[i] = math.Float64frombits(le.Uint64(b[i*stride:]))
		}
	}
}
