package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"strapline/calc/cutting"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/site"
	"strapline/grammar"
)

// hand is the boards to plan a room from.
type hand struct {
	boards  []site.Boards // what is there now
	whole   []site.Boards // with what hangs put back, as it was when the layouts were taken
	counted bool          // else there are as many as wanted
	after   []string      // rooms whose layouts take theirs first
}

// hand is what is on hand for the room at hand: what was counted, less what hangs and what the rooms whose layouts were
// taken before it still take, and those in t.before.
func (t *turn) hand() hand {
	var h hand
	if h.boards, h.counted = t.st.Stock(); !h.counted {
		return h
	}
	h.whole = slices.Clone(h.boards)
	for _, r := range t.st.Standing() {
		if r == t.room || r.Planned() > 0 {
			for _, b := range t.st.HungFrom(r.Name) {
				h.whole = site.Add(h.whole, b)
			}
		}
	}
	here, ans := t.room, t.ans
	for _, r := range t.firstOnStock() {
		t.room = r
		p := t.planFrom(h)
		if p == nil {
			continue
		}
		if todo := p.todo(); has(h.boards, todo) {
			h.after = append(h.after, r.Name)
			h.boards = less(h.boards, todo)
		}
		h.whole = less(h.whole, p.Boards)
		if p.extra { // what hangs is not among its boards
			for _, b := range t.st.HungFrom(r.Name) {
				h.whole = less(h.whole, []layout.Stock{{Length: b.L, Count: b.N}})
			}
		}
	}
	t.room, t.ans = here, ans
	return h
}

// has says whether any of the boards are there.
func has(of []site.Boards, boards []layout.Stock) bool {
	return slices.ContainsFunc(boards, func(b layout.Stock) bool {
		return slices.ContainsFunc(of, func(o site.Boards) bool { return o.L == b.Length && o.N > 0 })
	})
}

// less takes boards off, as far as there are any.
func less(of []site.Boards, boards []layout.Stock) []site.Boards {
	of = slices.Clone(of)
	for _, b := range boards {
		if i := slices.IndexFunc(of, func(o site.Boards) bool { return o.L == b.Length }); i >= 0 && of[i].N > 0 {
			of[i].N -= min(b.Count, of[i].N)
		}
	}
	return of
}

// short is what is not there of the boards still to be cut.
func (p *plan) short() (out []layout.Stock) {
	if !p.hand.counted {
		return nil
	}
	for _, b := range p.todo() {
		for _, o := range p.hand.boards {
			if o.L == b.Length {
				b.Count -= max(o.N, 0)
			}
		}
		if b.Count > 0 {
			out = append(out, b)
		}
	}
	slices.SortFunc(out, func(a, b layout.Stock) int { return cmp.Compare(b.Length, a.Length) })
	return out
}

// firstOnStock lists the rooms that take their boards before the room at hand, in order.
func (t *turn) firstOnStock() []*site.Room {
	var out []*site.Room
	for _, r := range t.st.Standing() {
		if at := r.Planned(); r != t.room && at > 0 && (t.room.Planned() == 0 || at < t.room.Planned()) {
			out = append(out, r)
		}
	}
	slices.SortFunc(out, func(a, b *site.Room) int { return cmp.Compare(a.Planned(), b.Planned()) })
	return append(out, t.before...)
}

// lessThose says that the boards of other rooms are taken off.
func lessThose(rooms []string) string {
	if len(rooms) == 0 {
		return ""
	}
	return ", less those for " + strings.Join(rooms, ", ")
}

// boardsFor is the boards to plan from, and what to say of them: those counted, beside the lengths said, which can be fetched; else
// the lengths said, else the usual ones.
func (t *turn) boardsFor(h hand, boards []site.Boards) (out []layout.Stock, stated string) {
	board, _ := t.st.BoardNow()
	lengths, count := board.Lengths, cutting.Unlimited
	switch {
	case h.counted:
		for _, b := range boards {
			out = append(out, layout.Stock{Width: board.Wide, Length: b.L, Count: max(b.N, 0)})
		}
		count = 0
		stated = "from the boards on hand" + lessThose(h.after)
	case len(lengths) == 0:
		lengths = usualLengths
		stated = fmt.Sprintf("with boards of %s, %s and %s unless you say, e.g. `board lengths 8 10`", t.stockLength(lengths[0]), t.stockLength(lengths[1]), t.stockLength(lengths[2]))
		if t.units() == length.Metric {
			stated = strings.Replace(stated, "8 10", "2.4m 3m", 1)
		}
	}
	for _, l := range lengths {
		out = append(out, layout.Stock{Width: board.Wide, Length: l, Count: count})
	}
	return out, stated
}

func (t *turn) stock(e grammar.StockSet) {
	b := site.Stock{How: e.How}
	for _, i := range e.Items {
		if i.N < 0 || i.N > 10_000 || i.L.L < 2*length.Foot || i.L.L > longestBoard {
			t.ask(fmt.Sprintf("%d boards of %s? send it again, e.g. `stock 9 x 12' 4 x 8'`", i.N, t.f(i.L.L)), "")
			return
		}
		b.Items = append(b.Items, site.Boards{N: i.N, L: i.L.L})
	}
	was, _ := t.stockText()
	before, _ := t.st.Stock()
	if t.save(b) == nil {
		return
	}
	text, facts := t.stockText()
	if dropped := slices.ContainsFunc(before, func(o site.Boards) bool {
		return o.N != 0 && !slices.ContainsFunc(b.Items, func(i site.Boards) bool { return i.L == o.L })
	}); b.How == "is" && dropped {
		text += " (was: " + was + ")"
	}
	t.noted("stock", facts, text)
}

type stockFacts struct {
	Boards []boardCount `json:"boards"`
}

func (t *turn) stockText() (string, stockFacts) {
	left, _ := t.st.Stock()
	facts := stockFacts{Boards: []boardCount{}}
	var parts []string
	for _, b := range left {
		facts.Boards = append(facts.Boards, boardCount{fact(t.units(), b.L), b.N})
		s := fmt.Sprintf("%d x %s", b.N, t.stockLength(b.L))
		if b.N < 0 {
			s += " (count again: more used than there were)"
		}
		parts = append(parts, s)
	}
	if len(parts) == 0 {
		return "no boards on hand", facts
	}
	return "on hand " + strings.Join(parts, ", "), facts
}

func (t *turn) boardsLeft(e grammar.BoardsLeft) {
	left, counted := t.st.Stock()
	if !counted {
		t.no("nobody counted the boards yet", "stock 9 x 12' 4 x 8'")
		t.ans.Reply = strings.TrimPrefix(t.ans.Reply, "not saved: ")
		return
	}
	text, facts := t.stockText()
	if e.L.L != 0 {
		n := 0
		for _, b := range left {
			if b.L == e.L.L {
				n = b.N
			}
		}
		text = fmt.Sprintf("%d x %s left", n, t.stockLength(e.L.L))
	}
	t.tell("stock", facts, text)
	used := "used 2 x 8'"
	if t.units() == length.Metric {
		used = "used 2 x 2.4m"
	}
	t.note("check", "counted and delivered, less planned pieces hung; boards spoiled or taken count when you say `"+used+"`")
}
