package sun

import (
	"errors"
	"math"

	"crossfall/terrain"

	"github.com/paulmach/orb"
)

// Obstacle is a thing that stands on the ground and takes sun: a prism over its
// outline, or a round crown that reaches to the ground. Metres.
type Obstacle struct {
	Line   orb.LineString // hedge, fence, or the closed outline of a shed; nil for a crown
	Centre orb.Point      // of a crown
	Radius float64        // of a crown
	Height float64        // above the ground it stands on, over 0
	Passes float64        // share of the light let through, 0 to 1
}

// Scene is ground with what stands on it, ready to be asked for shade. It may be
// used from several goroutines at once where its ground may.
type Scene struct {
	ground terrain.Heights
	hills  Hills
	north  float64 // bearing of +y from true north, radians
	walls  []wall
	crowns []crown
}

// wall is one straight, upright piece of an outline.
type wall struct {
	a, along   orb.Point // from a to a + along
	top, rises float64   // height of the top at a, and how much higher it is at the other end
	passes     float64
	thing      int // which obstacle it is part of: light is taken once by each
}

type crown struct {
	at                  orb.Point
	radius, top, passes float64
}

// wallPiece is how long a piece of a wall is whose top follows the ground, m; a
// default of ours.
const wallPiece = 2.0

// Hills is the ground that may hide the sun. Where it is not known it hides
// nothing.
type Hills struct {
	Ground  terrain.Heights
	Reach   float64 // how far from a point it is looked at, m
	Highest float64 // no part of it is higher, m
	// Steeper, a ratio of either sign, is added to the rise from a point to any
	// other ground: for what is not known of the slope.
	Steeper float64
}

// NewScene sets obstacles on the ground that stands knows, among hills. yFromTrue
// is the bearing of the +y axis from true north. An obstacle where the ground is
// not known is an error.
func NewScene(stands terrain.Heights, hills Hills, yFromTrue terrain.Bearing, things []Obstacle) (*Scene, error) {
	s := &Scene{ground: stands, hills: hills, north: float64(yFromTrue)}
	for i, o := range things {
		if o.Line == nil {
			z, ok := stands.HeightAt(o.Centre)
			if !ok {
				return nil, errUnknownGround
			}
			s.crowns = append(s.crowns, crown{o.Centre, o.Radius, z + o.Height, o.Passes})
			continue
		}
		if err := s.addLine(o, i); err != nil {
			return nil, err
		}
	}
	return s, nil
}

var errUnknownGround = errors.New("sun: the ground under an obstacle is not known")

// addLine cuts an outline into walls.
func (s *Scene) addLine(o Obstacle, thing int) error {
	for k := 1; k < len(o.Line); k++ {
		a, b := o.Line[k-1], o.Line[k]
		n := max(1, int(math.Ceil(math.Hypot(b[0]-a[0], b[1]-a[1])/wallPiece)))
		step := orb.Point{(b[0] - a[0]) / float64(n), (b[1] - a[1]) / float64(n)}
		for i := range n {
			from := orb.Point{a[0] + float64(i)*step[0], a[1] + float64(i)*step[1]}
			z, ok := s.ground.HeightAt(from)
			end, known := s.ground.HeightAt(orb.Point{from[0] + step[0], from[1] + step[1]})
			if !ok || !known {
				return errUnknownGround
			}
			s.walls = append(s.walls, wall{from, step, z + o.Height, end - z, o.Passes, thing})
		}
	}
	return nil
}

// Passes is the share of direct light that comes from a position of the sun to a
// point on the ground: 0 where the ground or an opaque thing is in the way.
func (s *Scene) Passes(p orb.Point, sun Position) float64 {
	z, _ := s.ground.HeightAt(p)
	return s.passes(p, z, sun)
}

func (s *Scene) passes(p orb.Point, z float64, sun Position) float64 {
	if sun.Altitude <= 0 || s.groundHides(p, z, sun) {
		return 0
	}
	return s.thingsPass(p, z, sun)
}

// toward is the sun's direction in the plot's frame, and its rise per metre.
func (s *Scene) toward(sun Position) (east, north, rise float64) {
	north, east = math.Cos(float64(sun.Azimuth)-s.north), math.Sin(float64(sun.Azimuth)-s.north)
	return east, north, math.Tan(sun.Altitude)
}

// Ground is looked at from nearest on, each look farther by a share; defaults of
// ours.
const (
	nearest = 0.5
	farther = 1.25
)

// groundHides reports whether the ground rises over the line to the sun.
func (s *Scene) groundHides(p orb.Point, z float64, sun Position) bool {
	e, n, rise := s.toward(sun)
	rise -= s.hills.Steeper
	for d := nearest; d <= s.hills.Reach && z+d*rise < s.hills.Highest; d *= farther {
		if g, ok := s.hills.Ground.HeightAt(orb.Point{p[0] + d*e, p[1] + d*n}); ok && g > z+d*rise {
			return true
		}
	}
	return false
}

// thingsPass is the share that obstacles let through.
func (s *Scene) thingsPass(p orb.Point, z float64, sun Position) float64 {
	e, n, rise := s.toward(sun)
	share, taken := 1.0, -1
	for i := range s.walls {
		w := &s.walls[i]
		if w.thing != taken && w.hides(p, z, e, n, rise) {
			share *= w.passes
			taken = w.thing // pieces of one thing follow one another
		}
	}
	for _, c := range s.crowns {
		if c.hides(p, z, e, n, rise) {
			share *= c.passes
		}
	}
	return share
}

// hides reports whether a wall crosses the line to the sun.
func (w *wall) hides(p orb.Point, z, e, n, rise float64) bool {
	cross := e*w.along[1] - n*w.along[0]
	if cross == 0 {
		return false
	}
	dx, dy := w.a[0]-p[0], w.a[1]-p[1]
	d := (dx*w.along[1] - dy*w.along[0]) / cross // metres toward the sun
	t := (dx*n - dy*e) / cross                   // share along the wall
	return d >= 0 && t >= 0 && t <= 1 && w.top+t*w.rises > z+d*rise
}

// hides reports whether a crown stands in the line to the sun.
func (c crown) hides(p orb.Point, z, e, n, rise float64) bool {
	dx, dy := c.at[0]-p[0], c.at[1]-p[1]
	off := dx*n - dy*e
	half := c.radius*c.radius - off*off
	if half <= 0 {
		return false
	}
	half = math.Sqrt(half)
	along := dx*e + dy*n
	return along+half > 0 && c.top > z+max(0, along-half)*rise
}

// Hours is the direct sun of a clear day on a patch of ground: the mean over its
// points (one or more), hours, at most the day's length.
func (s *Scene) Hours(d Day, points []orb.Point) float64 {
	if len(d.Sun) == 0 || len(points) == 0 {
		return 0
	}
	sum := 0.0
	for _, p := range points {
		z, _ := s.ground.HeightAt(p)
		for _, sun := range d.Sun {
			sum += s.passes(p, z, sun)
		}
	}
	return d.Length * sum / float64(len(points)*len(d.Sun))
}
