package speech

import (
	"maps"
	"slices"
	"strings"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/read"
	"strapline/grammar/topic"
)

// sounds are words as a phone writes what it heard, and what was said.
var sounds = func() lex.Table {
	t := lex.Table{}
	for said, heard := range lex.Rows(`
joists: joy stir, joy stirs, joy sts, joy st, joyce, joystick, joysticks, joy sticks, joy is, choice are, choices
trusses: trusts, trust is, trusties
strapping: strap in, scrapping
ceiling is: sealing is
ceilings are: sealings are
basement: bsment, basment, bsmnt, basemnt
ceiling height: ceiling hide, sealing hide, sealing height, sealing high, ceiling hype
across: a cross
along: a long
soffit: sofit, sore fit, soft it, saw fit, sophet
bulkhead: bulk had, bulk hed, balk head
knee wall: knee while, kneel wall, neewall, nee wall, need wall
hallway: hall way
bedroom: bed room
bathroom: bath room
on centre: on senter, on sender, on sent her, on enter
height: hite, hight
height in: hide in
height is: hide is
whole length: hole lenth, hole length
whole way: hole way
long way: long weigh
whole wall: hole wall
`, ", ") {
		t.Add(heard, lex.Symbol{Value: said})
	}
	return t
}()

// spelt are the words of the work that another may be a slip for, near are words of their own that are one slip away
// from one.
var (
	spelt = append(slices.Sorted(maps.Keys(topic.RoomNoun)), strings.Fields(`ceiling ceilings strapping straps strapped joists joist trusses rafters battens furring studs channel channels bulkhead bulkheads soffit kneewall kneewalls
		height slope slopes sloped outlet outlets receptacle receptacles switch switches light lights smoke alarm detector speaker thermostat junction hatch fixture pendant sprinkler north south centre center centres
		centers across along running parallel length width between bottom sheets boards screws window windows inches drywall plywood insulation`)...)
	near = lex.Set(strings.Fields(`joint joints close closed closer clothes sheep cellar sealed sealer weight eight right might flood hearing meaning butter matter shutting drinking
		later master month mouth chance change hover tight scrap scraps strip strips strapless switched sweets shirts bored bards boarder boarded board bored crews screw window's studio study student along alone aching`)...)
)

// leastSpelt is the shortest word in which a slip is looked for.
const leastSpelt = 5

// Respelt returns a line with what a phone heard and slips in words of the work put right, and how many there are.
func Respelt(l *read.Source) (string, int) {
	if !l.Has(lex.Number, "") {
		return l.Text, 0
	}
	var cuts []read.Edit
	for i := 0; i < len(l.Pieces); {
		p := l.Pieces[i]
		if sym, n := l.PhraseAt(i, sounds); n > 0 {
			cuts = append(cuts, read.Edit{From: p.Start, To: l.Pieces[i+n-1].End, Text: sym.Value})
			i += n
			continue
		}
		i++
		if !p.Word() || len(p.Low) < leastSpelt || len(p.Low) > grammar.LongestWord || near[p.Low] || idle[p.Low] || lex.Filler[p.Low] || read.Talk[p.Low] || tags[p.Low] != nil || lex.Phrases[p.Low] != nil ||
			lex.Numeral(p.Low) || lex.Heard(p.Low) || topic.RoomNoun[p.Low] || topic.BesideRoom[p.Low] || l.Walls[p.Low] != "" || l.Rooms[p.Low] != "" || strings.ContainsAny(p.Low, "'0123456789") {
			continue
		}
		if _, ours := slices.BinarySearch(read.Words.Vocab, p.Low); ours {
			continue
		}
		w := grammar.Nearest(p.Low, spelt)
		if most := 1 + len(p.Low)/8; w != "" && w != p.Low && w[0] == p.Low[0] && grammar.Slips([]rune(p.Low), []rune(w), most) <= most {
			cuts = append(cuts, read.Edit{From: p.Start, To: p.End, Text: w})
		}
	}
	if cuts == nil {
		return l.Text, 0
	}
	return l.With(cuts...), len(cuts)
}
