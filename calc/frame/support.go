package frame

import (
	"cmp"

	"strapline/calc/event"
	"strapline/calc/history"
	"strapline/calc/length"
	"strapline/calc/place"
)

var _ = fold(func(r *Frame, e *history.Entry, b event.Supports) { r.surface(b.Surface).supports(b.What).set(e, b) })

var _ = fold(func(r *Frame, e *history.Entry, b event.SupportFix) {
	set := r.surface(b.Surface).supports(b.What)
	set.fixes = append(set.fixes, history.Of(e, b))
})

// supportSet holds everything said about one kind of support on one surface.
type supportSet struct {
	sets  history.Versions[event.Supports] // whole sets
	thick history.Versions[length.Length]
	wide  history.Versions[length.Length]
	fixes []history.Version[event.SupportFix]
}

func (sf *surface) supports(k place.SupportKind) *supportSet {
	set := sf.sets[k]
	if set == nil {
		set = &supportSet{}
		sf.sets[k] = set
	}
	return set
}

func (ss *supportSet) set(e *history.Entry, b event.Supports) {
	if len(b.At) > 0 {
		ss.sets.Add(e, b)
	}
	if b.Thick != 0 {
		ss.thick.Add(e, b.Thick)
	}
	if b.Wide != 0 {
		ss.wide.Add(e, b.Wide)
	}
}

// SupportsOf returns the supports of one kind, numbered in the order given, to be read only. It applies
// corrections sent after the set; a later set starts afresh.
func (r *Frame) SupportsOf(s place.Surface, k place.SupportKind) []place.Support {
	ss := r.on(s).sets[k]
	if ss == nil {
		return nil
	}
	out, ok := r.known.supports[ss]
	if !ok {
		out = r.supportsIn(s, k, ss)
		if r.known.supports == nil {
			r.known.supports = map[*supportSet][]place.Support{}
		}
		r.known.supports[ss] = out
	}
	return out
}

func (r *Frame) supportsIn(s place.Surface, k place.SupportKind, ss *supportSet) []place.Support {
	set, e := ss.sets.Now()
	if e == nil {
		return nil
	}
	thick, wide := k.Usual()
	measured := false
	if v, e := ss.thick.Now(); e != nil {
		thick, measured = v, true
	}
	if v, e := ss.wide.Now(); e != nil {
		wide = v
	}
	long, board := r.along(s, set.Run), r.BoardAt(s, set.From, e.Sent)
	out := make([]place.Support, len(set.At))
	for i, d := range set.At {
		out[i] = place.Support{
			Kind: k, N: i + 1, Run: set.Run, Lie: s.Lie(set.Run), Pos: r.Shell().Line(s, set.From, d+board),
			To: long, Thick: thick, Wide: wide, Measured: measured,
		}
	}
	for _, f := range ss.fixes {
		if f.E.Struck() || f.E.Before(e) {
			continue
		}
		out = r.fixSupport(s, set, out, f)
	}
	return out
}

func (r *Frame) support(s place.Surface, f place.Fix) (place.Support, bool) {
	for _, sup := range r.SupportsOf(s, f.Sup) {
		if sup.N == f.N {
			return sup, true
		}
	}
	return place.Support{}, false
}

// along returns the surface's extent in direction run.
func (r *Frame) along(s place.Surface, run place.Direction) length.Length {
	x, y := r.Shell().Extent(s)
	if s.Lie(run) == place.X {
		return x
	}
	return y
}

func (r *Frame) fixSupport(s place.Surface, set event.Supports, out []place.Support, f history.Version[event.SupportFix]) []place.Support {
	if f.V.N == len(out)+1 && f.V.Moved {
		next := out[len(out)-1]
		next.N, next.From, next.To = f.V.N, 0, r.along(s, set.Run)
		out = append(out, next)
	}
	if f.V.N < 1 || f.V.N > len(out) {
		return out
	}
	p := &out[f.V.N-1]
	if f.V.Moved {
		from := cmp.Or(f.V.From, set.From)
		p.Pos = r.fromWall(s, from, f.V.At, f.E.Sent)
	}
	if f.V.Wall == "" {
		return out
	}
	a, b := r.fromWall(s, f.V.Wall, f.V.Start, f.E.Sent), r.fromWall(s, f.V.Wall, f.V.End, f.E.Sent)
	_, grows, _ := s.Axis(f.V.Wall)
	switch {
	case f.V.Stops && grows:
		p.From = b
	case f.V.Stops:
		p.To = b
	default:
		p.From, p.To = min(a, b), max(a, b)
	}
	return out
}

// Supports returns what the board on surface s is fixed to: the layer that it touches.
func (r *Frame) Supports(s place.Surface) []place.Support {
	return r.SupportsOf(s, r.layer(s))
}

// layer returns the kind of supports that the board on surface s touches, "" if none is noted.
func (r *Frame) layer(s place.Surface) (touches place.SupportKind) {
	var last *history.Entry
	for _, k := range place.SupportKinds {
		set := r.on(s).sets[k]
		if set == nil {
			continue
		}
		_, e := set.sets.Now()
		switch {
		case e == nil:
		case last == nil, touches == place.Straps && k == place.Channels && last.Before(e): // of straps and channels, those noted last
			touches, last = k, e
		}
	}
	return touches
}

// MeasuredFrom returns the wall that the supports of one kind are measured from.
func (r *Frame) MeasuredFrom(s place.Surface, k place.SupportKind) place.Wall {
	set := r.on(s).sets[k]
	if set == nil {
		return ""
	}
	b, _ := set.sets.Now()
	return b.From
}
