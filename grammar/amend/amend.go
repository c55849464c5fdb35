package amend

import (
	"reflect"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
	"strapline/grammar/measure"
	"strapline/grammar/record"
	"strapline/grammar/rooms"
	"strapline/grammar/things"
)

// Entry returns what the correction by could make of e, whatever entry by names: nothing if it does not
// apply, several if it may mean more than one part of e.
func Entry(e, by grammar.Entry, u length.Units) []grammar.Entry {
	var all []grammar.Entry
	switch by := by.(type) {
	case record.Swap:
		all = Swapped(e, by, u)
		if th, ok := e.(things.Thing); ok {
			all = append(all, resized(th, by)...)
		}
	case record.Refix:
		all = refixed(e, by)
	case record.Instead:
		all = instead(e, by)
	case record.Turn:
		all = turned(e, by.Wall)
	}
	return slices.DeleteFunc(all, func(a grammar.Entry) bool { return a.String() == e.String() })
}

// Swapped returns the entries that a swap could make of e, changing a length or a count of boards. A whole
// number under 6 ft, too short for a board, replaces a count rather than a length if it can.
func Swapped(e grammar.Entry, s record.Swap, u length.Units) []grammar.Entry {
	if note, ok := e.(record.Note); ok {
		return renoted(note, s, u)
	}
	if run, ok := e.(things.Route); ok && s.Old.L != 0 {
		return swappedAlong(run, s)
	}
	set, ok := e.(boards.StockSet)
	if !ok {
		return swappedIn(e, s)
	}
	unit := length.Inch
	if u == length.Metric {
		unit = length.Millimetre
	}
	var out []grammar.Entry
	if s.New.L%unit == 0 && s.New.L < 6*length.Foot {
		for i, it := range set.Items {
			if s.Old.L == 0 || length.Length(it.N)*unit == s.Old.L {
				next := set
				next.Items = slices.Clone(set.Items)
				next.Items[i].N = int(s.New.L / unit)
				out = append(out, next)
			}
		}
	}
	if out != nil {
		return out
	}
	return swappedIn(e, s)
}

// renoted returns a note with a length in its words changed.
func renoted(note record.Note, s record.Swap, u length.Units) (all []grammar.Entry) {
	words := strings.Fields(note.Text)
	for i := 0; i < len(words); i++ {
		for n := min(longestSaid, len(words)-i); n > 0; n-- {
			said := strings.Trim(strings.Join(words[i:i+n], " "), ",.;:")
			read, end, _ := measure.Scan(said, u, measure.One)
			if end == 0 || end < len(said) {
				continue
			}
			if s.Old.L == 0 || slices.ContainsFunc(read, func(r measure.Reading) bool { return r.L == s.Old.L }) {
				next := note
				next.Text = strings.Join(slices.Concat(words[:i], []string{s.New.String()}, words[i+n:]), " ")
				all = append(all, next)
			}
			i += n - 1
			break
		}
	}
	return all
}

const longestSaid = 4 // words of a length

func swappedIn(e grammar.Entry, s record.Swap) []grammar.Entry {
	_, board := e.(boards.Board) // its thickness is not taken for its length
	return each(e, func(was length.Said) (length.Said, bool) {
		return s.New, was.L != 0 && (s.Old.L == 0 && !(board && (was.L > 4*s.New.L || s.New.L > 4*was.L)) || was.L == s.Old.L)
	})
}

// swappedAlong returns the runs that a swap could make. A distance off a wall that is the same at both ends
// is changed at both.
func swappedAlong(run things.Route, s record.Swap) []grammar.Entry {
	next := run
	next.Points = make([][]place.Fix, len(run.Points))
	walls := map[place.Wall]bool{}
	for i, p := range run.Points {
		next.Points[i] = slices.Clone(p)
		for k, f := range p {
			if f.How == place.OffWall && f.L == s.Old.L {
				next.Points[i][k].Said = s.New
				walls[f.Wall] = true
			}
		}
	}
	if found := swappedIn(run, s); len(walls) != 1 || len(found) == 1 {
		return found
	}
	return []grammar.Entry{next}
}

// Alike returns several lines' entries with a distance changed that is the same in all their places: "30 off each
// wall". ok is false if they have several, or not the one that was wrong.
func Alike(all []grammar.Entry, s record.Swap) (out []grammar.Entry, ok bool) {
	old := s.Old.L
	for _, e := range all {
		each(e, func(f place.Fix) (place.Fix, bool) {
			if f.L != 0 && old == 0 {
				old = f.L
			}
			ok = ok || f.L == old
			if f.L != 0 && f.L != old {
				s.Old.L = -1
			}
			return f, false
		})
	}
	if !ok || s.Old.L < 0 || old == s.New.L {
		return nil, false
	}
	for _, e := range all {
		for next := []grammar.Entry{e}; len(next) > 0; {
			e = next[0]
			next = each(e, func(f place.Fix) (place.Fix, bool) {
				was := f.L
				f.Said = s.New
				return f, was == old
			})
		}
		out = append(out, e)
	}
	return out, true
}

// Resized returns a size of which one measure is corrected: "6 not 4". A bare new number is taken for the size of
// a round hole if it may be one.
func Resized(size place.Size, s record.Swap) (place.Size, bool) {
	was := size
	if s.Old.L == 0 && (size.B != 0 || s.New.L > mostRound) {
		return was, false
	}
	if size.A == s.Old.L || s.Old.L == 0 {
		size.A = s.New.L
	}
	if size.B == s.Old.L && size.B != 0 {
		size.B = s.New.L
	}
	return size, size != was
}

// mostRound is the largest size of a round hole that a bare new number is taken for: that of a duct.
const mostRound = 14 * length.Inch

// resized returns a thing that is not noted yet with another size.
func resized(th things.Thing, s record.Swap) []grammar.Entry {
	size, ok := Resized(th.Size, s)
	if !ok || th.Size.A == 0 && s.Old.L != 0 {
		return nil
	}
	th.Size = size
	return []grammar.Entry{th}
}

// Likely leaves out, of what a bare new number could make of e, what would change a length more than
// threefold, if anything else is left: nobody misreads a board's thickness as its length.
func Likely(e grammar.Entry, all []grammar.Entry) []grammar.Entry {
	old := lengths(e)
	near := slices.DeleteFunc(slices.Clone(all), func(a grammar.Entry) bool {
		for i, l := range lengths(a) {
			if i < len(old) && l != old[i] && (l > 3*old[i] || old[i] > 3*l) {
				return true
			}
		}
		return false
	})
	if len(near) == 0 {
		return all
	}
	return near
}

// lengths returns the lengths of an entry in order.
func lengths(e grammar.Entry) (all []length.Length) {
	each(e, func(l length.Said) (length.Said, bool) {
		if l.L != 0 {
			all = append(all, l.L)
		}
		return l, false
	})
	return all
}

// refixed returns a thing with other distances, or another size; a run, or anything else with a place, with
// another distance off the wall that is named.
func refixed(e grammar.Entry, by record.Refix) []grammar.Entry {
	switch was := e.(type) {
	case things.Thing:
		if next, ok := placed(was, by); ok {
			return []grammar.Entry{next}
		}
		return nil
	case things.Opening:
		next, ok := placed(was.Thing, by)
		if ok {
			return []grammar.Entry{things.Opening{Thing: next}}
		}
		return nil
	case record.Refix:
		if next, ok := placed(things.Thing{Size: was.Size, Fixes: was.Fixes}, by); ok {
			return []grammar.Entry{record.Refix{Name: was.Name, Size: next.Size, Fixes: next.Fixes}}
		}
		return nil
	case rooms.Room:
		if by.Size.B != 0 && len(by.Fixes) == 0 {
			was.EW, was.NS = length.Said{L: by.Size.A}, length.Said{L: by.Size.B}
			return []grammar.Entry{was}
		}
		return nil
	}
	if len(by.Fixes) != 1 || by.Size.A != 0 || by.Fixes[0].How != place.OffWall {
		return nil
	}
	f := by.Fixes[0]
	all := each(e, func(was place.Fix) (place.Fix, bool) {
		return f, was.How == place.OffWall && was.Wall == f.Wall && (by.Not.L == 0 || was.L == by.Not.L)
	})
	if run, ok := e.(things.Route); ok && len(all) > 1 { // the same at both ends
		return swappedAlong(run, record.Swap{New: f.Said, Old: offOf(run, f.Wall)})
	}
	return all
}

// offOf returns the first distance of a run off a wall.
func offOf(run things.Route, w place.Wall) length.Said {
	for _, p := range run.Points {
		for _, f := range p {
			if f.How == place.OffWall && f.Wall == w {
				return f.Said
			}
		}
	}
	return length.Said{}
}

// placed returns a thing with the distances or the size of a correction. A distance replaces that on the same
// axis; one along an axis that had none is added.
func placed(th things.Thing, by record.Refix) (things.Thing, bool) {
	if by.Size.A != 0 {
		th.Size = by.Size
	}
	if len(by.Fixes) > 1 && !slices.ContainsFunc(by.Fixes, shift) { // all of it anew
		th.Fixes = by.Fixes
		return th, true
	}
	th.Fixes = slices.Clone(th.Fixes)
	for _, f := range by.Fixes {
		at, ok := axis(th, f)
		if !ok {
			return th, false
		}
		i := slices.IndexFunc(th.Fixes, func(was place.Fix) bool {
			a, ok := axis(th, was)
			return ok && a == at || was.Wall == "" && was.How == place.OffWall && f.How == place.OffWall
		})
		switch {
		case shift(f) && (i < 0 || th.Fixes[i].How != place.OffWall && th.Fixes[i].How != place.UpFrom):
			return th, false
		case shift(f):
			d := f.L
			if th.Fixes[i].Wall == f.Dir {
				d = -d
			}
			if th.Fixes[i].Said = (length.Said{L: th.Fixes[i].L + d}); th.Fixes[i].L <= 0 {
				return th, false
			}
		case i >= 0:
			th.Fixes[i] = f
		case len(th.Fixes) > 1:
			return th, false
		default:
			th.Fixes = append(th.Fixes, f)
		}
	}
	return th, true
}

// shift reports whether a distance is from where the thing itself is.
func shift(f place.Fix) bool { return f.How == place.DirOf && f.Name == record.It }

// axis returns the axis of the thing's surface along which a distance places it.
func axis(th things.Thing, f place.Fix) (place.Axis, bool) {
	s := th.Surface
	if s == "" {
		s = place.Ceiling
	}
	w := f.Wall
	switch f.How {
	case place.UpFrom, place.DownTo:
		return place.Y, true
	case place.DirOf:
		w = f.Dir
	case place.OffWall:
	default:
		return 0, false
	}
	a, _, ok := s.Axis(w)
	return a, ok
}

// instead returns e with another wall, kind, row or side of its hole.
func instead(e grammar.Entry, by record.Instead) []grammar.Entry {
	switch {
	case by.Wall != "":
		return append(each(e, func(w place.Wall) (place.Wall, bool) {
			return by.Wall, w != "" && w != by.Wall && (w == by.NotWall || by.NotWall == "" && w.Along() == by.Wall.Along())
		}), each(e, func(s place.Surface) (place.Surface, bool) {
			return place.Surface(by.Wall), s.IsWall() && place.Wall(s) != by.Wall && (by.NotWall == "" || place.Wall(s) == by.NotWall)
		})...)
	case by.What != "":
		if th, ok := e.(things.Thing); ok && th.What != by.What {
			th.What = by.What
			return []grammar.Entry{th}
		}
	case by.Row != 0:
		if hung, ok := e.(hanging.Hung); ok {
			hung.Row = by.Row
			return []grammar.Entry{hung}
		}
	case by.Edge, by.Centre:
		off := func(f place.Fix) (place.Fix, bool) {
			was := f
			f.ToEdge, f.ToCentre = by.Edge, by.Centre && f.ToCentre
			return f, was != f && (f.How == place.OffWall || f.How == place.UpFrom || f.How == place.DownTo)
		}
		one := each(e, off)
		if len(one) == 2 { // both of them first
			return append(each(one[0], off), one...)
		}
		return one
	}
	return nil
}

// turned returns what "other way round" could make of e: its two numbers exchanged, its distances off the
// walls opposite, its sides or its direction the other way.
func turned(e grammar.Entry, wall bool) []grammar.Entry {
	switch e := e.(type) {
	case things.Thing:
		var all []grammar.Entry
		for _, fixes := range exchanged(e.Fixes, wall) {
			next := e
			next.Fixes = fixes
			all = append(all, next)
		}
		return all
	case record.Refix:
		var all []grammar.Entry
		for _, fixes := range exchanged(e.Fixes, wall) {
			all = append(all, record.Refix{Name: e.Name, Fixes: fixes})
		}
		return all
	case rooms.Room:
		e.EW, e.NS = e.NS, e.EW
		return []grammar.Entry{e}
	case rooms.SupportSet:
		switch e.Run {
		case place.EW:
			e.Run = place.NS
		case place.NS:
			e.Run = place.EW
		default:
			return nil
		}
		e.From = "" // it is off a wall across them
		return []grammar.Entry{e}
	}
	return nil
}

// exchanged returns two distances off walls that meet with their numbers exchanged, unless it is the wall that
// is wrong, then each of them off the wall opposite, and both.
func exchanged(fixes []place.Fix, wall bool) (all [][]place.Fix) {
	meet := len(fixes) == 2 && fixes[0].How == place.OffWall && fixes[1].How == place.OffWall && fixes[0].Wall != "" && fixes[1].Wall != "" && fixes[0].Wall.Along() != fixes[1].Wall.Along()
	if meet && !wall {
		numbers := slices.Clone(fixes)
		numbers[0].Said, numbers[1].Said = fixes[1].Said, fixes[0].Said
		all = append(all, numbers)
	}
	both := slices.Clone(fixes)
	for i, f := range fixes {
		if f.How == place.OffWall && f.Wall != "" {
			one := slices.Clone(fixes)
			one[i].Wall, both[i].Wall = f.Wall.Opposite(), f.Wall.Opposite()
			all = append(all, one)
		}
	}
	if meet {
		all = append(all, both)
	}
	return all
}

// each returns a copy of e for each part of that type that edit changes, with that one changed.
func each[T any](e grammar.Entry, edit func(T) (T, bool)) (all []grammar.Entry) {
	for n := 0; ; n++ {
		v := reflect.New(reflect.TypeOf(e)).Elem()
		v.Set(reflect.ValueOf(e))
		left := n
		if !nth(v, edit, &left) {
			return all
		}
		all = append(all, v.Interface().(grammar.Entry))
	}
}

// nth changes the part that edit changes after *left others, and reports whether there was one.
func nth[T any](v reflect.Value, edit func(T) (T, bool), left *int) bool {
	if v.Type() == reflect.TypeFor[T]() {
		next, ok := edit(v.Interface().(T))
		if !ok {
			return false
		}
		if *left--; *left >= 0 {
			return false
		}
		v.Set(reflect.ValueOf(next))
		return true
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if nth(v.Field(i), edit, left) {
				return true
			}
		}
	case reflect.Slice:
		c := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		reflect.Copy(c, v)
		v.Set(c)
		for i := range v.Len() {
			if nth(v.Index(i), edit, left) {
				return true
			}
		}
	}
	return false
}
