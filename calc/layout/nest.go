package layout

import "strapline/calc/length"

// Nest is a piece with a slanted end that comes out of the board of another one with the same slant: turned
// end for end, the two share the one cut, and its own board is not needed. The boards of a layout do not count
// on it, so that a slip of the saw does not leave the crew a board short.
type Nest struct {
	Piece, With string        // the one whose board is saved, and the one it is cut beside
	Board       length.Length // the length of the board saved
}

// nest finds the pieces that are alone on a whole board and fit beside another one. Each board is used once.
func (s *site) nest(out *Layout) {
	pieces := map[string]Piece{}
	for _, r := range out.Rows {
		for _, pc := range r.Pieces {
			pieces[pc.ID] = pc
		}
	}
	used := map[int]bool{}
	for i, c := range out.Cuts {
		if used[i] || c.Offcut || len(c.Strips) != 1 || len(c.Strips[0].Pieces) != 1 {
			continue
		}
		alone := pieces[c.Strips[0].Pieces[0]]
		for k, d := range out.Cuts {
			if k == i || used[k] || used[i] || len(d.Strips) != 1 {
				continue
			}
			for _, id := range d.Strips[0].Pieces {
				if !used[i] && alone.nests(pieces[id], d.Strips[0].Left) {
					out.Nests = append(out.Nests, Nest{alone.ID, id, c.Length})
					used[i], used[k] = true, true
				}
			}
		}
	}
}

// nests reports whether p fits beside the slanted end of o, with left more of the board behind it. Turned by half a
// turn in its plane, which leaves its face out, a piece has the same slant at its other end.
func (p Piece) nests(o Piece, left length.Length) bool {
	along, across := p.slant()
	by, wide := o.slant()
	if across == 0 || wide == 0 || o.RipTapered() {
		return false
	}
	if slope := round(float64(along) * float64(wide) / float64(across)); abs(slope-by) > 2*Taper { // over the width of o
		return false
	}
	if p.RipTapered() { // a triangle, in the one that comes off o
		return abs(along) <= abs(by)
	}
	return p.Width == o.Width && min(p.Edges[0], p.Edges[1]) <= left
}

// slant returns how much farther along the run the slanted end of a piece is at Hi than at Lo, and over what
// width. A triangle under a slope, which is planned as a rip that tapers out, has it over its whole length. across
// is 0 unless exactly one end is slanted.
func (p Piece) slant() (along, across length.Length) {
	switch {
	case len(p.Off) > 0, p.Lean[0] != 0 && p.Lean[1] != 0:
		return 0, 0
	case p.RipTapered() && p.Ends[1] == 0:
		return p.From - p.To, p.Ends[0]
	case p.RipTapered() && p.Ends[0] == 0:
		return p.To - p.From, p.Ends[1]
	case p.RipTapered() || !p.Tapered():
		return 0, 0
	}
	return p.Lean[0] + p.Lean[1], p.Hi - p.Lo
}
