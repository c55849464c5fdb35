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

// OnHand returns how many boards of each length there are, in the order first named. counted is false if nobody has
// counted any. kindOf returns the thickness and type of the board that a surface gets, for pieces that hang.
func (all Ledger) OnHand(kindOf func(event.Hung) event.Boards) (boards []event.Boards, counted bool) {
	for _, v := range all {
		if v.E.Struck() {
			continue
		}
		if v.V.How != "hung" {
			counted = true
		}
		if v.V.How == "is" {
			boards = nil
		}
		for _, b := range v.V.Items {
			switch v.V.How {
			case "used", "hung":
				h, hung := v.E.Body.(event.Hung)
				said := b
				if hung && b.Thick == 0 && b.Type == "" {
					kind := kindOf(h)
					said.Thick, said.Type = kind.Thick, kind.Type
				}
				if !take(boards, said) {
					if hung {
						b.Thick, b.Type = 0, ""
					}
					b.N = -b.N
					boards = append(boards, b)
				}
				continue
			case "left":
				boards = slices.DeleteFunc(boards, func(o event.Boards) bool { return o.L == b.L && ofKind(o, b) })
			}
			boards = event.AddBoards(boards, b)
		}
	}
	for i, b := range boards { // used before the count that they are of was put right
		for k := range boards {
			if o := &boards[k]; b.N < 0 && b.Thick == 0 && b.Type == "" && o.L == b.L && o.W == b.W && o.N > 0 {
				n := min(o.N, -boards[i].N)
				o.N, boards[i].N = o.N-n, boards[i].N+n
			}
		}
		if b.N < 0 && boards[i].N == 0 {
			boards[i].L = 0
		}
	}
	return slices.DeleteFunc(boards, func(b event.Boards) bool { return b.L == 0 }), counted
}

// take takes boards away from those of their kind, or without a kind from the first of that length. It reports
// whether there were any of that length and kind, even if too few.
func take(from []event.Boards, b event.Boards) bool {
	for _, fits := range []func(o event.Boards) bool{b.Alike, func(o event.Boards) bool { return ofKind(b, o) && o.N > 0 }, func(o event.Boards) bool { return o.Thick == 0 && o.Type == "" }} {
		if i := slices.IndexFunc(from, func(o event.Boards) bool { return o.L == b.L && fits(o) }); i >= 0 {
			from[i].N -= b.N
			return true
		}
	}
	return false
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

// HungFrom returns the boards that the planned pieces of a surface used up since the boards were last counted.
func (all Ledger) HungFrom(room string, s place.Surface) (boards []event.Boards) {
	for _, v := range all {
		switch {
		case v.E.Struck():
		case v.V.How == "is":
			boards = nil
		case v.V.How == "hung" && v.E.Room == room && v.E.Body.(event.Hung).Surface == s:
			for _, b := range v.V.Items {
				boards = event.AddBoards(boards, b)
			}
		}
	}
	return boards
}
