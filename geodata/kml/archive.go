package kml

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"path"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/internal/textfile"
)

// mostEntries is how many files a KMZ archive may hold; a default of ours.
const mostEntries = 10_000

// unzip gives the first KML file of a KMZ archive, or nil and a fault. Nothing
// of the archive is ever written, and no name in it is used as a path.
func unzip(data []byte, file geodata.Pos, opt Options, fs *textfile.Faults) []byte {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		fs.Problem(file, "kmz-broken", "", "the archive cannot be opened: "+err.Error(), "download or export the file again")
		return nil
	}
	if len(z.File) > mostEntries {
		fs.Problem(file, "kmz-too-many-files", "", fmt.Sprintf("the archive holds more than %d files", mostEntries), "export the points alone as KML")
		return nil
	}
	entry, more := firstKML(z)
	switch {
	case entry == nil:
		fs.Problem(file, "kmz-without-kml", "", "the archive holds no KML file", "export the points as KML")
		return nil
	case entry.Flags&1 != 0:
		fs.Problem(file, "kmz-locked", entry.Name, "the KML in the archive is locked with a password", "export it without one")
		return nil
	case entry.UncompressedSize64 > uint64(opt.MostBytes):
		return tooLarge(file, entry, opt, fs)
	}
	if more > 0 {
		fs.Warn(file, "kmz-more-kml", entry.Name, textfile.Count(more, "more KML file")+" in the archive: only the first is read", "")
	}
	return inflate(file, entry, opt, fs)
}

// firstKML finds the first KML file and counts the others. The hidden twins
// that one system writes beside each file begin with a point and a bar.
func firstKML(z *zip.Reader) (first *zip.File, more int) {
	for _, f := range z.File {
		base := path.Base(f.Name)
		if !strings.EqualFold(path.Ext(base), ".kml") || strings.HasPrefix(base, "._") {
			continue
		}
		if first == nil {
			first = f
		} else {
			more++
		}
	}
	return first, more
}

// inflate reads one entry, and stops when it grows beyond the limit, whatever
// the size that the archive claims.
func inflate(file geodata.Pos, entry *zip.File, opt Options, fs *textfile.Faults) []byte {
	in, err := entry.Open()
	if err != nil {
		fs.Problem(file, "kmz-broken", entry.Name, "the KML in the archive cannot be read: "+err.Error(), "export it anew")
		return nil
	}
	defer in.Close()
	out, err := io.ReadAll(io.LimitReader(in, opt.MostBytes+1))
	switch {
	case err != nil:
		fs.Problem(file, "kmz-broken", entry.Name, "the KML in the archive is damaged: "+err.Error(), "download or export the file again")
		return nil
	case int64(len(out)) > opt.MostBytes:
		return tooLarge(file, entry, opt, fs)
	case len(out) == 0:
		fs.Problem(file, "empty-file", entry.Name, "the KML in the archive is empty", "export it anew")
		return nil
	}
	return out
}

func tooLarge(file geodata.Pos, entry *zip.File, opt Options, fs *textfile.Faults) []byte {
	fs.Problem(file, "file-too-large", entry.Name, fmt.Sprintf("the KML in the archive is larger than %d MiB", opt.MostBytes>>20), "give the part around the plot")
	return nil
}
