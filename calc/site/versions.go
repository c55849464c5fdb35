package site

import (
	"slices"
	"sort"
	"strapline/calc/event"
)

// Entry is an event in the log, with its present state.
type Entry struct {
	event.Event
	Room     string // room it is about, "" for the whole job
	struckBy *Entry // the last strike of it
}

// Struck reports whether the entry is struck.
func (e *Entry) Struck() bool { return e.struckBy != nil && !e.struckBy.Struck() }

// StruckBy returns the entry that struck e, nil if e stands.
func (e *Entry) StruckBy() *Entry {
	if e.Struck() {
		return e.struckBy
	}
	return nil
}

// before orders entries by the time sent, then by arrival.
func (e *Entry) before(o *Entry) bool {
	if e.Sent != o.Sent {
		return e.Sent < o.Sent
	}
	return e.Seq < o.Seq
}

// version is one value and the entry that set it.
type version[T any] struct {
	e *Entry
	v T
}

// versions are all values that something has had, by the time sent. Struck ones stay, and are skipped.
type versions[T any] []version[T]

func (vs *versions[T]) add(e *Entry, v T) {
	list := *vs
	i := len(list)
	if i > 0 && e.before(list[i-1].e) {
		i = sort.Search(len(list), func(i int) bool { return e.before(list[i].e) })
	}
	*vs = slices.Insert(list, i, version[T]{e, v})
}

// addTo adds to the versions of one thing of several.
func addTo[K comparable, T any](of map[K]versions[T], k K, e *Entry, v T) {
	vs := of[k]
	vs.add(e, v)
	of[k] = vs
}

// at returns the newest standing value sent at or before time t.
func (vs versions[T]) at(t int64) (v T, e *Entry) {
	for _, v := range slices.Backward(vs) {
		if v.e.Sent <= t && !v.e.Struck() {
			return v.v, v.e
		}
	}
	return v, nil
}

// EndOfTime is later than any message; as a time it means the present.
const EndOfTime = 1<<63 - 1

// now returns the newest standing value. e is nil if there is none.
func (vs versions[T]) now() (v T, e *Entry) { return vs.at(EndOfTime) }
