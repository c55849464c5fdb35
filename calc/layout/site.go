package layout

import (
	"cmp"
	"slices"

	"strapline/calc/cutting"
	"strapline/calc/joints"
	"strapline/calc/length"
	"strapline/calc/place"
)

// site is the input in plan coordinates: u along the boards from the west, north or left end, v across the
// rows from where they start.
type site struct {
	in            Input
	rules         Rules
	run           place.Axis
	length, cross length.Length
	notches       []box
	openings      []box
	things        []box
	holes         []box    // notches and openings
	outline       *outline // nil if the walls are square
	posts         []post
	stock         []Stock         // boards on hand by width and length, each size once; from index there on, the sizes that can be bought
	boards        []cutting.Stock // the same, priced by area in multiples of unit
	there         int             // number of sizes on hand
	unit          float64         // square metres that cost scale
	scale         int64           // cost of one unit; each offcut costs 1, and all of them together less than scale
	partly        bool            // not all divisions into rows are tried
	widths        []length.Length // of stock, ascending
	longest       length.Length
	notes         []Note
	limits        []Note // published limits of the supports' spacing
}

// post is what carries a butt at one place along the run: the supports there and their extent across the
// rows.
type post struct {
	at    length.Length
	parts []span
	index int // of the first one, in Input.Supports
}

const (
	maxSide     = 400 * length.Foot
	maxRects    = 200
	maxSupports = joints.MaxPlaces
	maxRows     = 120
)

func newSite(in Input) (*site, error) {
	f := in.Surface
	r := in.Rules
	if f.W <= 0 || f.H <= 0 || f.W > maxSide || f.H > maxSide ||
		min(r.Clear, r.Rip, r.Sliver, r.Short, r.Stagger, r.Edge, r.Round) < 0 || max(r.Clear, r.Rip, r.Sliver, r.Short, r.Stagger, r.Edge, r.Round) > maxSide {
		return nil, &Problem{Kind: BadSize}
	}
	if len(f.Notches)+len(f.Openings)+len(f.Things) > maxRects || len(in.Supports) > maxSupports || len(in.Hung) > maxRects {
		return nil, &Problem{Kind: TooComplex}
	}
	if len(in.Supports) == 0 {
		return nil, &Problem{Kind: NoSupports}
	}
	s := &site{in: in, rules: in.Rules.filled(), run: in.Lie.Other()}
	if in.Along {
		s.run = in.Lie
	}
	s.length, s.cross = f.W, f.H
	if s.run == place.Y {
		s.length, s.cross = f.H, f.W
	}
	for _, r := range slices.Concat(f.Notches, f.Openings, f.Things) {
		if r.W <= 0 || r.H <= 0 || min(r.X, r.Y) < -maxSide || max(r.X, r.Y, r.W, r.H) > maxSide {
			return nil, &Problem{Kind: BadSize}
		}
	}
	for _, p := range in.Supports {
		if min(p.At, p.From, p.To) < -maxSide || max(p.At, p.From, p.To) > maxSide {
			return nil, &Problem{Kind: BadSize}
		}
	}
	if p := s.takeCorners(); p != nil {
		return nil, p
	}
	for _, r := range f.Notches {
		s.notches = append(s.notches, s.turn(r))
	}
	for _, r := range f.Openings {
		s.openings = append(s.openings, s.turn(r))
	}
	for _, r := range f.Things {
		s.things = append(s.things, s.turn(r))
	}
	s.holes = slices.Concat(s.notches, s.openings)
	s.takeStock()
	if len(s.stock) == 0 {
		return nil, &Problem{Kind: NoBoards}
	}
	s.takeSupports()
	s.notes = append(s.notes, s.framing()...)
	return s, nil
}

// filled replaces zero values with the defaults.
func (r Rules) filled() Rules {
	d := Defaults()
	return Rules{cmp.Or(r.Clear, d.Clear), cmp.Or(r.Rip, d.Rip), cmp.Or(r.Sliver, d.Sliver), cmp.Or(r.Short, d.Short),
		cmp.Or(r.Stagger, d.Stagger), cmp.Or(r.Edge, d.Edge), cmp.Or(r.Round, d.Round)}
}

// takeStock sorts the boards. Boards without a count have to get in whole; counted boards too long to get
// in are cut down outside. More of the counted sizes that get in can be bought; if none does, boards of
// the greatest whole feet that do.
func (s *site) takeStock() {
	var more, clipped, offcuts []Stock
	unlimited := length.Length(0)
	for _, b := range s.in.Stock {
		long := s.in.Longest > 0 && b.Length > s.in.Longest
		switch {
		case !b.usable() || b.Count == cutting.Unlimited && long:
			continue
		case b.Offcut:
			offcuts = append(offcuts, b)
			continue
		}
		s.stock = addStock(s.stock, b)
		s.widths = append(s.widths, b.Width)
		switch whole := s.in.Longest - s.in.Longest%length.Foot; {
		case b.Count < 0:
			unlimited = max(unlimited, b.Length)
		case !long:
			more = append(more, Stock{Width: b.Width, Length: b.Length})
		case whole > 0:
			clipped = append(clipped, Stock{Width: b.Width, Length: whole})
		}
	}
	if more == nil {
		more = clipped
	}
	s.longest = unlimited // no piece may need a board longer than can be bought
	for _, b := range more {
		s.longest = max(s.longest, b.Length)
	}
	slices.Sort(s.widths)
	s.widths = slices.Compact(s.widths)
	bySize := func(a, b Stock) int { return cmp.Or(cmp.Compare(a.Width, b.Width), cmp.Compare(a.Length, b.Length)) }
	slices.SortFunc(s.stock, bySize)
	slices.SortFunc(more, bySize)
	there := len(s.stock)
	s.stock = append(s.stock, slices.Compact(more)...)
	if s.stock == nil {
		return
	}
	for _, b := range s.stock {
		s.boards = append(s.boards, cutting.Stock{Length: b.Length, Width: b.Width, Count: b.Count})
	}
	s.priceStock(offcuts)
	for _, b := range offcuts {
		strip := !slices.Contains(s.widths, b.Width)
		s.stock = slices.Insert(s.stock, there, b)
		s.boards = slices.Insert(s.boards, there, cutting.Stock{Length: b.Length, Width: b.Width, Count: b.Count, Cost: 1, Strip: strip})
		there++
	}
	s.there = there
}

// coarse is the least unit of area that costs are counted in. It keeps costs far below what a float64
// holds exactly.
const coarse = 16 * 0.0254 * 0.0254 // square metres: 16 sq in, a third of a percent of the least board

// priceStock sets the cost of each board to its area. If the sizes have no common measure of at least
// coarse, areas are rounded down to that.
func (s *site) priceStock(offcuts []Stock) {
	s.scale = 1
	for _, b := range offcuts {
		s.scale += int64(b.Count)
	}
	long, wide := cutting.ByArea(s.boards)
	s.unit = metres(long) * metres(wide)
	for i, b := range s.boards {
		if s.unit < coarse {
			s.boards[i].Cost = int64(metres(b.Length) * metres(b.Width) / coarse)
		}
		s.boards[i].Cost *= s.scale
	}
	s.unit = max(s.unit, coarse)
}

// cost returns the cost of boards of that area, rounded by round.
func (s *site) cost(m2 float64, round func(float64) float64) int64 {
	return int64(round(m2/s.unit)) * s.scale
}

// area returns the area that a cost stands for, without offcuts.
func (s *site) area(cost int64) float64 { return float64(cost/s.scale) * s.unit }

// addStock adds boards to those of the same size. Counts of 0 add no entry.
func addStock(to []Stock, b Stock) []Stock {
	i := slices.IndexFunc(to, func(o Stock) bool { return o.Width == b.Width && o.Length == b.Length })
	switch {
	case i < 0 && b.Count != 0:
		to = append(to, b)
	case i >= 0 && min(b.Count, to[i].Count) < 0:
		to[i].Count = cutting.Unlimited
	case i >= 0:
		to[i].Count += b.Count
	}
	return to
}

// Least face for a joint: 1-1/2 in of wood or 1-1/4 in of steel (Building Design and Construction
// Handbook, gypsum board finishes, furring at joints).
const (
	woodFace  = 3 * length.Inch / 2
	steelFace = 5 * length.Inch / 4
)

func (s *site) takeSupports() {
	far := s.in.Surface.H
	if s.in.Lie == place.X {
		far = s.in.Surface.W
	}
	narrow := Note{About: NarrowFace}
	for i, p := range s.in.Supports {
		least := woodFace
		if p.Steel {
			least = steelFace
		}
		if p.Face > 0 && p.Face < least {
			if narrow.Limit == 0 || p.Face < narrow.At {
				narrow.At, narrow.Limit = p.Face, least
			}
			continue
		}
		part := span{p.From, p.To}
		if p.To == 0 {
			part.hi = far
		}
		if s.in.Far && !s.in.Along {
			part = span{s.cross - part.hi, s.cross - part.lo}
		}
		at := p.At
		if s.in.Far && s.in.Along {
			at = s.cross - at
		}
		k, ok := slices.BinarySearchFunc(s.posts, at, func(q post, at length.Length) int { return cmp.Compare(q.at, at) })
		if !ok {
			s.posts = slices.Insert(s.posts, k, post{at: at, index: i})
		}
		s.posts[k].parts = append(s.posts[k].parts, part)
	}
	if narrow.Limit > 0 {
		s.notes = append(s.notes, narrow)
	}
}

// carries reports whether the post extends over all of v.
func (p post) carries(v span) bool { return len(less(v, slices.Clone(p.parts))) == 0 }

// band is the extent of a row across, and the width of its boards.
type band struct {
	v     span
	board length.Length
	first bool // the cut edge of a rip may go to the wall before it
	last  bool // or to the wall after it
}

// rowPlans returns the divisions into rows worth trying, most promising first.
func (s *site) rowPlans() [][]band {
	if s.in.Rows != nil {
		return s.settledRows()
	}
	if s.in.Along {
		if rows := s.rowsOnPosts(); rows != nil {
			return [][]band{rows}
		}
		return nil
	}
	var out [][]band
	shared := false
	fulls := make([]int, len(s.widths))
	var try func(k int, at length.Length)
	try = func(k int, at length.Length) {
		if k < 0 {
			if rows := s.divide(fulls, shared); rows != nil {
				out = append(out, rows)
			}
			return
		}
		for n := 0; at+length.Length(n)*s.widths[k] <= s.cross && n <= maxRows; n++ {
			fulls[k] = n
			try(k-1, at+length.Length(n)*s.widths[k])
		}
		fulls[k] = 0
	}
	try(len(s.widths)-1, 0)
	if slices.ContainsFunc(out, func(rows []band) bool { return s.inLine(rows) > 0 }) {
		shared = true // starting with a rip may move a joint that is in line with a corner
		try(len(s.widths)-1, 0)
	}
	merit := func(rows []band) [2]int { return [2]int{s.inLine(rows), len(rows)} }
	slices.SortStableFunc(out, func(a, b []band) int {
		x, y := merit(a), merit(b)
		return slices.Compare(x[:], y[:])
	})
	s.partly = len(s.widths) > 1
	n := 0
	for n < len(out) && n < 6 && merit(out[n]) == merit(out[0]) {
		n++
	}
	return out[:n]
}

// settledRows returns the rows given in the input.
func (s *site) settledRows() [][]band {
	var rows []band
	at := length.Length(0)
	for _, w := range s.in.Rows {
		if w <= 0 || w > s.cross-at || len(rows) == maxRows {
			break
		}
		rows = append(rows, band{v: span{at, at + w}, board: s.boardFor(w)})
		at += w
	}
	if rows == nil || s.cross-at > s.rules.Rip {
		return nil
	}
	rows[0].first, rows[len(rows)-1].last = true, true
	return [][]band{rows}
}

// inLine counts the long joints that run into a corner.
func (s *site) inLine(rows []band) (n int) {
	for _, r := range rows[1:] {
		if s.cornerOn(r.v.lo) {
			n++
		}
	}
	return n
}

// boardFor returns the narrowest board width of at least w, else the widest.
func (s *site) boardFor(w length.Length) length.Length {
	i, _ := slices.BinarySearch(s.widths, w)
	return s.widths[min(i, len(s.widths)-1)]
}

// divide makes rows of fulls[k] whole boards of each width, widest first, and one of what is left; nil if
// that takes more than one row. A sliver is shared out between the first and the last row, and with shared
// so is any rest.
func (s *site) divide(fulls []int, shared bool) []band {
	var rows []band
	at := length.Length(0)
	for k := len(fulls) - 1; k >= 0; k-- {
		for range fulls[k] {
			rows = append(rows, band{v: span{at, at + s.widths[k]}, board: s.widths[k]})
			at += s.widths[k]
		}
	}
	rest := s.cross - at
	switch n := len(rows); {
	case rest <= s.rules.Rip && n > 0 && !shared: // the wall board covers the gap
	case rest >= s.widths[len(s.widths)-1]:
		return nil
	case (rest < s.rules.Sliver || shared) && n > 0:
		// The first and the last row get the same width, and the rows between shift.
		half := (rest + rows[0].board) / 2
		shift := half - rows[0].board
		rows = append(rows, band{v: span{s.cross - half, s.cross}, board: s.boardFor(half)})
		rows[0] = band{v: span{0, half}, board: s.boardFor(half)}
		for i := 1; i < n; i++ {
			rows[i].v = span{rows[i].v.lo + shift, rows[i].v.hi + shift}
		}
	default:
		rows = append(rows, band{v: span{at, s.cross}, board: s.boardFor(rest)})
	}
	if len(rows) == 0 || len(rows) > maxRows {
		return nil
	}
	rows[0].first = true
	rows[len(rows)-1].last = true
	return rows
}
