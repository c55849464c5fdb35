package fit

import "strapline/calc/length"

// Rows is how a surface is boarded in rows, by its size alone.
type Rows struct {
	N      int           // rows
	Cut    length.Length // length of each, were it one piece
	Last   length.Length // width to cut of the last row; that of a board if it is not ripped
	Shared bool          // the first row is as narrow as the last one
}

// InRows returns the rows of boards that run along one side of a surface, stacked across it, by the rules of a layout:
// rip is how much narrower a rip is cut than its place, and what is left across of at most that is covered by the board on
// the wall; what is narrower than sliver is shared out between the first and the last row. wide is the width of a board,
// clear and u are those of [Size]. All lengths are above 0.
func InRows(along, across, wide, clear, rip, sliver length.Length, u length.Units) Rows {
	n := int(across / wide)
	r := Rows{N: n, Cut: Size(along, along, clear, u).A, Last: wide}
	switch rest := across - length.Length(n)*wide; {
	case rest <= rip && n > 0:
	case rest < sliver && n > 0:
		r.N, r.Last, r.Shared = n+1, length.RoundDown((rest+wide)/2-rip, u), true
	default:
		r.N, r.Last = n+1, length.RoundDown(max(rest-rip, 0), u)
	}
	return r
}
