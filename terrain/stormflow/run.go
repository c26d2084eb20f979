package stormflow

import (
	"context"
	"math"
	"runtime"
)

// Options say how a storm is played.
type Options struct {
	// Workers is how many rows are worked at once; 0: as many as there are
	// cores. The result is the same to the last bit.
	Workers int
	// Progress, if set, is told every second of the storm or so how many of its
	// seconds are played.
	Progress func(played, duration float64)
	// Observe, if set, is called after every ObserveEvery seconds, exactly.
	Observe      func(State)
	ObserveEvery float64
	// Frames is how many times, evenly over the storm, depths are kept.
	Frames int
}

// Frame is the mean depth on each square of the bands at one time, m; NaN
// without ground.
type Frame struct {
	Time  float64
	Depth []float64
}

// Run plays a storm. What is wrong with the storm is told at once, by errors
// that are ErrSpec. When the context is cancelled, the result until then comes
// with its error.
func (m *Model) Run(ctx context.Context, storm Storm, opt Options) (*Result, []Frame, error) {
	if err := storm.faults(m); err != nil {
		return nil, nil, err
	}
	if opt.Workers <= 0 {
		opt.Workers = runtime.GOMAXPROCS(0)
	}
	p := newPlay(m, storm, opt)
	defer p.team.dismiss()
	err := p.run(ctx)
	return p.result(), p.frames, err
}

// play is a storm being played.
type play struct {
	*state
	opt    Options
	team   *team
	gauges *gauges
	watch  *watch
	frames []Frame
	// when the next of each comes
	look, observe, frame float64
	told                 float64
}

func newPlay(m *Model, storm Storm, opt Options) *play {
	s := newState(m, storm)
	p := &play{state: s, opt: opt, team: newTeam(s, opt.Workers), gauges: newGauges(s), watch: newWatch(s)}
	p.look, p.observe, p.frame = watchEvery, math.Inf(1), math.Inf(1)
	if opt.Observe != nil && opt.ObserveEvery > 0 {
		p.observe = opt.ObserveEvery
	}
	if opt.Frames > 0 {
		p.frame = storm.Duration / float64(opt.Frames)
	}
	return p
}

func (p *play) run(ctx context.Context) error {
	for end := p.storm.Duration; end-p.t > 1e-9; {
		if err := ctx.Err(); err != nil {
			return err
		}
		p.choose(min(end, p.observe, p.frame))
		p.step()
		p.tell()
	}
	return nil
}

// step is one step of the storm.
func (p *play) step() {
	p.team.do(pushPart)
	p.team.do(limitPart)
	p.team.do(fillPart)
	p.t += p.dt
	p.steps++
	p.cellSteps += int64(p.m.cells)
	p.gauges.read(p.state)
	if p.t >= p.look {
		p.watch.look(p.state)
		p.look = p.t + watchEvery
	}
}

// tell gives out what is due.
func (p *play) tell() {
	const late = 1e-9
	if p.t >= p.observe-late {
		p.observe += p.opt.ObserveEvery
		if p.opt.Observe != nil {
			p.opt.Observe(State{Time: p.t, Step: p.dt, Balance: p.gauges.now(p.state), s: p.state})
		}
	}
	if p.opt.Frames > 0 && p.t >= p.frame-late {
		p.frame += p.storm.Duration / float64(p.opt.Frames)
		p.watch.look(p.state)
		p.frames = append(p.frames, Frame{Time: p.t, Depth: p.watch.depths()})
	}
	if p.opt.Progress != nil && (p.t-p.told >= 1 || p.t >= p.storm.Duration-late) {
		p.told = p.t
		p.opt.Progress(p.t, p.storm.Duration)
	}
}

func (p *play) result() *Result {
	p.watch.look(p.state)
	p.gauges.finish()
	return &Result{
		Time: p.t, Steps: p.steps, Balance: p.gauges.now(p.state), Boards: p.gauges.boards,
		Lines: p.gauges.lines, Bands: p.watch.finish(), CellSteps: p.cellSteps,
	}
}
