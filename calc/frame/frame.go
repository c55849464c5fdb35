// Package frame is a room as it is built: its size and shape, what its surfaces are framed with, and the board on
// them, by what was said; and where distances on a surface lead.
package frame

import (
	"cmp"
	"maps"
	"slices"

	"strapline/calc/event"
	"strapline/calc/history"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/shell"
)

// Folds holds, for each kind of body that is about a frame, how it is folded in. Each subject registers its own.
var Folds = map[string]func(*Frame, *history.Entry, event.Body){}

func fold[T event.Body](in func(r *Frame, e *history.Entry, b T)) struct{} {
	var b T
	Folds[b.Kind()] = func(r *Frame, e *history.Entry, b event.Body) { in(r, e, b.(T)) }
	return struct{}{}
}

// Frame is a room as it is built: its size and shape, what its surfaces are framed with, and the board on them.
type Frame struct {
	Name string // of the room

	board      *Boards // of the job
	size       history.Versions[event.RoomSize]
	walls      map[place.Surface]history.Versions[event.Boarded]
	surfaces   map[place.Surface]*surface
	squares    []history.Version[event.Square]
	slopes     map[place.Wall]history.Versions[event.Slope]
	bulkheads  map[beam]history.Versions[event.Bulkhead]
	texture    history.Versions[bool]
	wallsFirst history.Versions[bool]
	floor      history.Versions[length.Length]

	// What was worked out since the last event.
	known struct {
		supports map[*supportSet][]place.Support
		shell    *shell.Room
	}
}

// New returns the frame of a room of which nothing was said.
func New(name string, boards *Boards) Frame {
	return Frame{
		Name:      name,
		board:     boards,
		walls:     map[place.Surface]history.Versions[event.Boarded]{},
		surfaces:  map[place.Surface]*surface{},
		slopes:    map[place.Wall]history.Versions[event.Slope]{},
		bulkheads: map[beam]history.Versions[event.Bulkhead]{},
	}
}

// Forget drops what was worked out, because an event was folded in.
func (r *Frame) Forget() { r.known.supports, r.known.shell = nil, nil }

// Built returns the surfaces of which something was said.
func (r *Frame) Built() []place.Surface { return slices.Collect(maps.Keys(r.surfaces)) }

// Sized folds in a size of the room.
func (r *Frame) Sized(e *history.Entry, b event.RoomSize) {
	r.size.Add(e, b)
	for _, sl := range b.Slopes {
		history.AddTo(r.slopes, sl.Wall, e, sl)
	}
}

// Said returns the room's size as last said, and the entry that said it.
func (r *Frame) Said() (event.RoomSize, *history.Entry) { return r.size.Now() }

// Sizes returns how many standing notes there are of the room's size.
func (r *Frame) Sizes() int {
	n := 0
	for _, v := range r.size {
		if !v.E.Struck() {
			n++
		}
	}
	return n
}

// Shell returns the shape of the room as it stands.
func (r *Frame) Shell() *shell.Room {
	if r.known.shell == nil {
		r.known.shell = r.shell()
	}
	return r.known.shell
}

func (r *Frame) shell() *shell.Room {
	sh := &shell.Room{Boards: map[place.Surface]length.Length{}, Ends: map[place.Wall]length.Length{}, Slopes: map[place.Wall]event.Slope{}}
	if b, e := r.size.Now(); e != nil {
		on := r.boards(e.Sent) // the size was said to the faces that were there then
		sh.EW, sh.NS = b.EW+on[1]+on[3], b.NS+on[0]+on[2]
		sh.High, sh.HighTo, sh.Less = b.High, r.CeilingFace(e.Sent), b.Less
	}
	if board, _ := r.BoardFor(place.Ceiling); !r.WallsFirst() {
		sh.Over = cmp.Or(r.CeilingFace(history.EndOfTime), board.Thick)
	}
	for _, w := range place.Walls {
		sh.Ends[w] = r.BoardNow(w)
		if sh.Ends[w] == 0 && r.WallsFirst() && !r.Finished(place.Surface(w)) {
			board, _ := r.BoardFor(place.Surface(w))
			sh.Ends[w] = board.Thick
		}
		if b, e := r.slopes[w].Now(); e != nil {
			sh.Slopes[w] = b
		}
		for n := range place.Ordinals {
			if b, e := r.bulkheads[beam{w, n}].Now(); e != nil {
				sh.Bulkheads = append(sh.Bulkheads, b)
			}
		}
	}
	for _, s := range sh.Surfaces() {
		if s.FromFloor() {
			sh.Boards[s] = r.BoardOn(s, history.EndOfTime)
		}
	}
	sh.Leaning = r.leaning(sh)
	return sh
}
