package plotfolder

import (
	"fmt"
	"os"
	"path/filepath"

	"crossfall/geodata"
)

// ReadSoFar reads what is there of a plot folder that is still being made: its
// wishes, what is drawn, and the heights so far, without asking whether they are
// enough. What cannot be read is left out; Read tells why. The error is only
// that of a folder that cannot be looked into.
func ReadSoFar(dir string) (*geodata.Plot, error) {
	if _, err := os.ReadDir(dir); err != nil {
		return nil, fmt.Errorf("look into %s: %s", filepath.Base(dir), reason(err))
	}
	var c collector
	opt := Options{MostBytes: geodata.MostFileBytes}
	in := load(dir, opt, &c)
	p := &geodata.Plot{}
	if in.site != nil {
		p.Site = readSite(in.site, &c)
		p.Name = p.Site.Name
	}
	shapes := readShapes(in, p.Site, &c)
	s := readHeights(in, settings{opt: opt, site: p.Site}, shapes, &c)
	s.followShapes(shapes)
	if !settleFrame(p, &s, shapes, &c) {
		return p, nil
	}
	p.Spots = s.spots
	finishShapes(p, shapes, &c)
	return p, nil
}
