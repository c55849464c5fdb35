// Package stock is the boards on hand: those that came or were counted, less those that were used and those that
// planned pieces were cut from.
package stock

import (
	"slices"

	"strapline/calc/event"
	"strapline/calc/history"
	"strapline/calc/place"
)

// Ledger is what was said of boards, in the order of the log.
type Ledger []history.Version[event.Stock]

// OnHand returns how many boards of each length there are, in the order first named; those without a length are of one that
// was not told. counted is false if nobody has counted any. kindOf returns the thickness and type of the board that a surface gets.
func (all Ledger) OnHand(kindOf func(room string, on place.Surface) event.Boards) (boards []event.Boards, counted bool) {
	boards, counted, _ = all.fold(kindOf)
	return boards, counted
}

// Up returns how many boards are up on a surface whose rows nobody told.
func (all Ledger) Up(room string, on place.Surface) int {
	_, _, up := all.fold(func(string, place.Surface) (b event.Boards) { return b })
	return up[room+" "+string(on)]
}

func (all Ledger) fold(kindOf func(room string, on place.Surface) event.Boards) (boards []event.Boards, counted bool, up map[string]int) {
	up = map[string]int{}
	for _, v := range all {
		how := v.V.How
		if v.E.Struck() || how == "ordered" {
			continue
		}
		goes := how == "used" || how == "hung" || how == "up"
		if counted = counted || !goes; how == "is" {
			boards = nil
		}
		for _, b := range v.V.Items {
			if how == "left" {
				boards = slices.DeleteFunc(boards, func(o event.Boards) bool { return (o.L == b.L || b.L == 0) && ofKind(o, b) })
			}
			if !goes {
				boards = event.AddBoards(boards, b)
				continue
			}
			room, on, said := v.V.Room, v.V.On, b
			if h, hung := v.E.Body.(event.Hung); hung {
				room, on = h.Room, h.Surface
				b.N -= min(up[room+" "+string(on)], b.N) // what was counted before, now with its row
				up[room+" "+string(on)] -= said.N - b.N
			} else {
				up[room+" "+string(on)] += b.N
			}
			if how != "used" && b.Thick == 0 && b.Type == "" {
				kind := kindOf(room, on)
				said.Thick, said.Type = kind.Thick, kind.Type
			}
			if i := fit(boards, said); i >= 0 {
				boards[i].N -= b.N
				continue
			}
			b.N = -b.N
			boards = event.AddBoards(boards, b)
		}
	}
	for i, b := range boards { // used before the count that they are of was put right
		if b.N >= 0 {
			continue
		}
		boards[i].W = gone
		if at := fit(boards, b); b.L == 0 && at >= 0 && boards[at].N > 0 {
			boards[at].N += b.N
			continue
		}
		for k := range boards {
			if o := &boards[k]; b.L > 0 && b.Thick == 0 && b.Type == "" && o.L == b.L && o.W == b.W && o.N > 0 {
				n := min(o.N, -boards[i].N)
				o.N, boards[i].N = o.N-n, boards[i].N+n
			}
		}
		if boards[i].N != 0 {
			boards[i].W = b.W
		}
	}
	return slices.DeleteFunc(boards, func(b event.Boards) bool { return b.W == gone }), counted, up
}

// gone is the width of boards that are left out.
const gone = -1

// fit returns which of the boards some are of: those of their kind, or without a kind the first of that length. Those without
// a length fit if they can be of one only. It returns -1 if there is none.
func fit(from []event.Boards, b event.Boards) int {
	for _, fits := range []func(o event.Boards) bool{b.Alike,
		func(o event.Boards) bool { return o.N > 0 && o.Thick == b.Thick && o.Type == b.Type },
		func(o event.Boards) bool { return o.N > 0 && ofKind(b, o) },
		func(o event.Boards) bool { return b.L > 0 && o.Thick == 0 && o.Type == "" }} {
		at := func(o event.Boards) bool {
			return o.W != gone && (o.L == b.L || b.L == 0) && fits(o)
		}
		first := slices.IndexFunc(from, at)
		if first >= 0 && (b.L > 0 || !slices.ContainsFunc(from[first+1:], at)) {
			return first
		}
	}
	return -1
}

// ofKind reports whether boards are of a kind, as far as one was said.
func ofKind(o, kind event.Boards) bool {
	return (kind.Thick == 0 || o.Thick == 0 || o.Thick == kind.Thick) && (kind.Type == "" || o.Type == "" || o.Type == kind.Type)
}

// CountedAfter reports whether all boards were counted after entry e.
func (all Ledger) CountedAfter(e *history.Entry) bool {
	return slices.ContainsFunc(all, func(v history.Version[event.Stock]) bool {
		return v.V.How == "is" && !v.E.Struck() && v.E.Seq > e.Seq
	})
}

// HungFrom returns the boards that the planned pieces of a surface used up since the boards were last counted, but for those
// whose length was not told.
func (all Ledger) HungFrom(room string, s place.Surface) (boards []event.Boards) {
	for _, v := range all {
		switch {
		case v.E.Struck():
		case v.V.How == "is":
			boards = nil
		case v.V.How == "hung" && v.E.Room == room && v.E.Body.(event.Hung).Surface == s:
			for _, b := range v.V.Items {
				if b.L > 0 {
					boards = event.AddBoards(boards, b)
				}
			}
		}
	}
	return boards
}
