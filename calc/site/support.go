package site

import (
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
)

var _ = inRoom(func(r *Room, e *Entry, b event.Supports) { r.surface(b.Surface).supports(b.What).set(e, b) })

var _ = inRoom(func(r *Room, e *Entry, b event.SupportFix) {
	set := r.surface(b.Surface).supports(b.What)
	set.fixes = append(set.fixes, version[event.SupportFix]{e, b})
})

// supportSet holds everything said about one kind of support on one surface.
type supportSet struct {
	sets  versions[event.Supports] // whole sets
	thick versions[length.Length]
	wide  versions[length.Length]
	fixes []version[event.SupportFix]
}

func (sf *surface) supports(k place.SupportKind) *supportSet {
	set := sf.sets[k]
	if set == nil {
		set = &supportSet{}
		sf.sets[k] = set
	}
	return set
}

func (ss *supportSet) set(e *Entry, b event.Supports) {
	if len(b.At) > 0 {
		ss.sets.add(e, b)
	}
	if b.Thick != 0 {
		ss.thick.add(e, b.Thick)
	}
	if b.Wide != 0 {
		ss.wide.add(e, b.Wide)
	}
}

// SupportsOf returns the supports of one kind, numbered in the order given, to be read only. It applies
// corrections sent after the set; a later set starts afresh.
func (r *Room) SupportsOf(s place.Surface, k place.SupportKind) []place.Support {
	ss := r.on(s).sets[k]
	if ss == nil {
		return nil
	}
	memo := r.workedOut().supports
	out, ok := memo[ss]
	if !ok {
		out = r.supportsIn(s, k, ss)
		memo[ss] = out
	}
	return out
}

func (r *Room) supportsIn(s place.Surface, k place.SupportKind, ss *supportSet) []place.Support {
	set, e := ss.sets.now()
	if e == nil {
		return nil
	}
	thick, wide := k.Usual()
	measured := false
	if v, e := ss.thick.now(); e != nil {
		thick, measured = v, true
	}
	if v, e := ss.wide.now(); e != nil {
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
		if f.e.Struck() || f.e.before(e) {
			continue
		}
		out = r.fixSupport(s, set, out, f)
	}
	return out
}

func (r *Room) support(s place.Surface, f place.Fix) (place.Support, bool) {
	for _, sup := range r.SupportsOf(s, f.Sup) {
		if sup.N == f.N {
			return sup, true
		}
	}
	return place.Support{}, false
}

// along returns the surface's extent in direction run.
func (r *Room) along(s place.Surface, run place.Direction) length.Length {
	x, y := r.Shell().Extent(s)
	if s.Lie(run) == place.X {
		return x
	}
	return y
}

func (r *Room) fixSupport(s place.Surface, set event.Supports, out []place.Support, f version[event.SupportFix]) []place.Support {
	if f.v.N == len(out)+1 && f.v.Moved {
		next := out[len(out)-1]
		next.N, next.From, next.To, next.Short = f.v.N, 0, r.along(s, set.Run), false
		out = append(out, next)
	}
	if f.v.N < 1 || f.v.N > len(out) {
		return out
	}
	p := &out[f.v.N-1]
	if f.v.Moved {
		from := f.v.From
		if from == "" {
			from = set.From
		}
		p.Pos = r.fromWall(s, from, f.v.At, f.e.Sent)
	}
	if f.v.Wall == "" {
		return out
	}
	a, b := r.fromWall(s, f.v.Wall, f.v.Start, f.e.Sent), r.fromWall(s, f.v.Wall, f.v.End, f.e.Sent)
	_, grows, _ := s.Axis(f.v.Wall)
	p.Short = true
	switch {
	case f.v.Stops && grows:
		p.From = b
	case f.v.Stops:
		p.To = b
	default:
		p.From, p.To = min(a, b), max(a, b)
	}
	return out
}

// Supports returns what the board on surface s is fixed to: the layer that it touches.
func (r *Room) Supports(s place.Surface) []place.Support {
	return r.SupportsOf(s, r.layer(s))
}

// layer returns the kind of supports that the board on surface s touches, "" if none is noted.
func (r *Room) layer(s place.Surface) (touches place.SupportKind) {
	var last *Entry
	for _, k := range place.SupportKinds {
		set := r.on(s).sets[k]
		if set == nil {
			continue
		}
		_, e := set.sets.now()
		switch {
		case e == nil:
		case last == nil, touches == place.Straps && k == place.Channels && last.before(e): // of straps and channels, those noted last
			touches, last = k, e
		}
	}
	return touches
}

// MeasuredFrom returns the wall that the supports of one kind are measured from.
func (r *Room) MeasuredFrom(s place.Surface, k place.SupportKind) place.Wall {
	set := r.on(s).sets[k]
	if set == nil {
		return ""
	}
	b, _ := set.sets.now()
	return b.From
}
