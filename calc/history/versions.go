// Package history holds values by who said them when: a value is a list of versions, of which struck ones are skipped.
package history

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

// Strike strikes the entry by another, in place of an earlier strike.
func (e *Entry) Strike(by *Entry) { e.struckBy = by }

// StruckBy returns the entry that struck e, nil if e stands.
func (e *Entry) StruckBy() *Entry {
	if e.Struck() {
		return e.struckBy
	}
	return nil
}

// Before orders entries by the time sent, then by arrival.
func (e *Entry) Before(o *Entry) bool {
	if e.Sent != o.Sent {
		return e.Sent < o.Sent
	}
	return e.Seq < o.Seq
}

// Version is one value and the entry that set it.
type Version[T any] struct {
	E *Entry
	V T
}

// Of returns a version.
func Of[T any](e *Entry, v T) Version[T] { return Version[T]{e, v} }

// Versions are all values that something has had, by the time sent. Struck ones stay, and are skipped.
type Versions[T any] []Version[T]

func (vs *Versions[T]) Add(e *Entry, v T) {
	list := *vs
	i := len(list)
	if i > 0 && e.Before(list[i-1].E) {
		i = sort.Search(len(list), func(i int) bool { return e.Before(list[i].E) })
	}
	*vs = slices.Insert(list, i, Version[T]{e, v})
}

// AddTo adds to the versions of one thing of several.
func AddTo[K comparable, T any](of map[K]Versions[T], k K, e *Entry, v T) {
	vs := of[k]
	vs.Add(e, v)
	of[k] = vs
}

// At returns the newest standing value sent at or before time t.
func (vs Versions[T]) At(t int64) (v T, e *Entry) {
	for _, v := range slices.Backward(vs) {
		if v.E.Sent <= t && !v.E.Struck() {
			return v.V, v.E
		}
	}
	return v, nil
}

// EndOfTime is later than any message; as a time it means the present.
const EndOfTime = 1<<63 - 1

// Now returns the newest standing value. e is nil if there is none.
func (vs Versions[T]) Now() (v T, e *Entry) { return vs.At(EndOfTime) }
