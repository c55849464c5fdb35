package places

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
	"strapline/grammar/numbers"
	"strapline/grammar/pattern"
	"strapline/grammar/read"
)

// instead says what would fit after "off" at the item.
func (it *PlaceItem) instead(d *Distance) string {
	switch {
	case it.Support != nil:
		return fmt.Sprintf("a wall, or a direction: %s south of strap %d", d.L.Raw(), it.Support.N.N)
	}
	return wallsFit
}

// PlaceItem is one part of a place, in any order.
type PlaceItem struct {
	Pos     lexer.Position
	Num     *Distance       `parser:"  @@"`
	Label   *read.Label     `parser:"| @@"`
	Name    string          `parser:"| @Name"`
	Along   *targetSyntax   `parser:"| 'along' @@"`
	OnWhat  *SupportN       `parser:"| 'on' ( @@"`
	On      *WhereSyntax    `parser:"       | @@"`
	OnSide  string          `parser:"       | @Place"`
	OnNone  *read.NoSurface `parser:"       | @@ )"`
	Where   *WhereSyntax    `parser:"| @@"`
	Support *SupportN       `parser:"| @@"`
	Room    string          `parser:"| @Room"`
	Even    bool            `parser:"| @'even'"`
	Paint   bool            `parser:"| @'after paint'"`
	At      *Distance       `parser:"| 'at' @@"`
	Tag     string          `parser:"| @Tag"`
	Mid     bool            `parser:"| @'in the middle'"`
	Half    string          `parser:"| 'halfway' @Direction"`
	Half2   *WhereSyntax    `parser:"| 'halfway along' @@"`
	AtLine  *SupportN       `parser:"| 'centred on' ( @@"`
	Half3   *WhereSyntax    `parser:"       | @@ )"`
	Between *Pair           `parser:"| 'between' @@"`
}

// Pair is two supports of one kind.
type Pair struct {
	One   SupportN      `parser:"@@"`
	Kind  string        `parser:"@Support?"`
	Other numbers.Count `parser:"@@"`
}

// Fix is the middle between the two.
func (s *Pair) Fix(l *read.Source) (place.Fix, error) {
	of := s.One.Of(l)
	if s.Kind != "" && s.Kind != string(of.Sup) {
		return place.Fix{}, l.Refuse(s.Other.Pos, "two supports of one kind: between strap 3 and 4")
	}
	return place.Fix{How: place.Between, Of: place.Of{Sup: of.Sup, N: of.N}, M: int16(min(numbers.Counted(l, &s.Other), math.MaxInt16))}, nil
}

// halfway is the middle of the room: east-west, or north-south.
func halfway(run place.Direction) place.Fix {
	if run == place.NS {
		return place.Fix{How: place.Mid, Dir: place.North}
	}
	return place.Fix{How: place.Mid, Dir: place.West}
}

// Idle reports whether the words between a thing and its distances only say that it is there.
func Idle(said string) bool {
	for w := range strings.FieldsSeq(said) {
		if !idleWords[w] {
			return false
		}
	}
	return said != ""
}

var idleWords = lex.Set("ctr", "cntr", "centre", "center", "goes", "ran", "go", "going", "sits", "sit", "sitting", "located", "location", "position", "positioned", "mounted", "placed", "lands", "set", "comes", "measured", "measures", "it's", "its", "there", "extra", "adding", "added", "marked", "installed", "still")

// edgeSaid are words before the distances that say what they go to.
var edgeSaid = lex.Set("edge", "near edge", "nearest edge", "closest edge", "close edge", "the edge", "its edge", "its near edge", "the near edge", "edge at")

// Where is what the items after a thing, a mark or a name say together.
type Where struct {
	What    string // the kind that the items follow
	Size    place.Size
	Sized   bool
	Paint   bool
	Fixing  bool  // a size needs its unit
	NoSize  bool  // a bare number is not a size here
	SizeAsk error // a size that may be the thing's number
	SizeErr error // only reported if the line says where the thing is
	Name    string
	Label   string
	Surface place.Surface
	Fixes   []place.Fix
	Even    bool
	Counts  *Distance  // 3 x 2, if "even" follows
	edges   bool       // all distances off walls go to its near edge: "6 inch can, near edge 30 off west"
	mid     bool       // in the middle of whatever no distance gives
	halfOn  place.Wall // "halfway along the north wall": also its surface, if a height is given
}

// Read combines the items. A bare number is the size if none was given yet, or it belongs to the wall
// before it ("west 26 north 41"), or, if last, it is a distance off a wall that was not said.
func (p *Where) Read(l *read.Source, items []*PlaceItem) error {
	if len(items) > 0 && items[0].Num != nil && p.What != "" && !p.Sized {
		numbers.Alone(l, &items[0].Num.L.Number, p.What, "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
	}
	tailed, paired := false, false // "26 off west", "west 26"
	var aside *PlaceItem           // "on left wall": asks which one, provided that a height shows that it is a wall
	for _, it := range items {
		if it.At != nil {
			it.Num = it.At
		}
		it.OnWhat, it.Half2 = cmp.Or(it.OnWhat, it.AtLine), cmp.Or(it.Half2, it.Half3)
		tailed = tailed || it.Num != nil && it.Num.Off
	}
	for i := 0; i < len(items); i++ {
		it := items[i]
		var next *PlaceItem
		if i+1 < len(items) {
			next = items[i+1]
		}
		switch {
		case it.Even:
			p.Even = true
		case it.Paint:
			p.Paint = true
		case it.Room != "":
			if len(p.Fixes) > 0 {
				return l.Refuse(it.Pos, `"in" before a room`)
			}
			l.InRoom(it.Room)
		case it.Name != "":
			if p.Name != "" || len(it.Name) == 1 { // a single letter is a mark's
				return l.Refuse(it.Pos, "one name, like d1")
			}
			p.Name = it.Name
		case it.Label != nil && (Idle(it.Label.Text) || it.Label.Text == "in" && next != nil && next.Where != nil && next.Where.Ceiling):
		case it.Label != nil && edgeSaid[it.Label.Text] && len(p.Fixes) == 0:
			p.edges = true
		case it.Label != nil:
			if p.Label != "" || len(p.Fixes) > 0 || p.mid {
				return trailing(l, it)
			}
			p.Label = it.Label.Text
			if i > 0 && items[i-1].Num != nil {
				if err := numbers.Ganged(l, &items[i-1].Num.L.Number, &it.Label.Saying); err != nil {
					return err
				}
			}
			if next != nil && next.Num != nil {
				if err := numbers.Labelled(l, &it.Label.Saying); err != nil {
					return err
				}
				if !strings.Contains(p.Label, " ") { // "light first one twelve off west"
					numbers.Alone(l, &next.Num.L.Number, p.Label, "one")
				}
			}
		case it.OnSide == "left", it.OnSide == "right":
			aside = it
		case it.OnSide != "":
			return l.Refuse(it.Pos, "a strap and its number, a wall or the ceiling")
		case it.On != nil:
			p.Surface = it.On.Surface()
		case it.OnWhat != nil, it.Support != nil:
			on := it.OnWhat
			if on == nil {
				if on = it.Support; len(p.Fixes) > 0 {
					return l.Refuse(it.Pos, `"on" before it`)
				}
			}
			p.Fixes = append(p.Fixes, place.Fix{How: place.OnLine, Of: on.Of(l)})
		case toEdge(it.Tag):
			p.edges = true
		case it.Tag != "":
			return l.Refuse(it.Pos, read.Words.Rows["thing"].Fits)
		case it.Mid:
			p.mid = true
		case it.Half != "":
			p.Fixes = append(p.Fixes, halfway(place.Direction(it.Half)))
		case it.Half2 != nil:
			run := place.EW
			if w := place.Wall(it.Half2.Wall); w.Along() == place.X {
				p.halfOn = w
			} else {
				run, p.halfOn = place.NS, w
			}
			p.Fixes = append(p.Fixes, halfway(run))
		case it.Between != nil:
			f, err := it.Between.Fix(l)
			if err != nil {
				return err
			}
			p.Fixes = append(p.Fixes, f)
		case it.Along != nil:
			if err := p.along(l, it); err != nil {
				return err
			}
		case it.Where != nil && it.Where.Shape+it.Where.Face+it.Where.Alone != "":
			if p.Surface != "" {
				return l.Refuse(it.Pos, "one surface")
			}
			p.Surface = it.Where.Surface()
		case it.Where != nil:
			bare := next != nil && next.Num != nil && next.Num.Plain()
			switch {
			case bare && !tailed && !it.Where.Ceiling:
				f := place.Fix{How: place.OffWall, Said: numbers.Said(l, &next.Num.L.Number, numbers.Distances), Wall: place.Wall(it.Where.Wall)}
				p.Fixes = append(p.Fixes, next.Num.Tagged(l, f))
				paired = true
				i++
			case bare && !it.Where.Ceiling && !l.SaidWall(it.Pos.Offset):
				return l.Refuse(next.Num.L.Pos, fmt.Sprintf(`"off" and a wall: %s off west`, next.Num.L.Raw()))
			case p.Surface != "" || paired || len(p.Fixes) > 0 && !it.Where.Ceiling && !l.SaidWall(it.Pos.Offset):
				return l.Refuse(it.Pos, `a distance and "off" before a wall`)
			default:
				p.Surface = it.Where.Surface()
			}
		default:
			skip, err := p.number(l, items, i)
			if err != nil {
				return err
			}
			i += skip
		}
	}
	for i, f := range p.Fixes {
		if p.edges && f.How == place.OffWall && !f.ToCentre {
			p.Fixes[i].ToEdge = true
		}
	}
	if p.mid {
		p.middle()
	}
	if p.halfOn != "" && p.Surface == "" && place.HasHeight(p.Fixes) {
		p.Surface = place.Surface(p.halfOn)
	}
	if aside != nil && (p.Surface != "" || !place.HasHeight(p.Fixes)) {
		return l.Refuse(aside.Pos, wallsFit)
	}
	return nil
}

// middle fills each coordinate that no distance gives with the middle of the room.
func (p *Where) middle() {
	var said [2]bool
	for _, f := range p.Fixes {
		if w := cmp.Or(f.Wall, f.Dir); w != "" && w.Along() == place.X {
			said[1] = true
		} else if w != "" {
			said[0] = true
		}
	}
	if p.Surface.IsWall() { // along it
		run := place.EW
		if place.Wall(p.Surface).EastWest() {
			run = place.NS
		}
		p.Fixes = append(p.Fixes, halfway(run))
		return
	}
	for k, run := range []place.Direction{place.EW, place.NS} {
		if !said[k] || said[0] && said[1] {
			p.Fixes = append(p.Fixes, halfway(run))
		}
	}
}

// number reads the distance at item i and returns how many more items it took.
func (p *Where) number(l *read.Source, items []*PlaceItem, i int) (int, error) {
	d := items[i].Num
	if d.B != nil {
		_, ok := d.L.Whole()
		_, ok2 := d.B.Whole()
		if (ok || ok2 || p.Sized) && slices.ContainsFunc(items, func(it *PlaceItem) bool { return it.Even }) {
			if p.Counts != nil {
				return 0, l.Refuse(d.L.Pos, "one grid: 3 x 2")
			}
			p.Counts = d
			return 0, nil
		}
		if p.Sized || len(p.Fixes) > 0 && (len(p.Fixes) < 2 || i+1 < len(items)) || !d.Plain() {
			return 0, l.Refuse(d.L.Pos, "one size")
		}
		p.SetSize(l, &d.L.Number, d.B)
		p.edges = p.edges || slices.ContainsFunc(append(d.Tags, d.Tag), toEdge)
		return 0, nil
	}
	if !d.Plain() {
		if d.OffWhat() && i+1 < len(items) && items[i+1].Num == nil && items[i+1].On == nil && !items[i+1].Paint {
			return 0, l.Refuse(items[i+1].Pos, items[i+1].instead(d))
		}
		p.Fixes = append(p.Fixes, d.Fix(l))
		return 0, nil
	}
	open := !p.Sized && !p.NoSize && len(p.Fixes) == 0
	if i+1 < len(items) && items[i+1].Num != nil && items[i+1].Num.B == nil {
		b := items[i+1].Num
		if joined, ok := numbers.Joined(l, &d.L.Number, &b.L.Number); ok {
			if open {
				return 0, numbers.OneOrTwo(l, &d.L.Number, &b.L.Number)
			}
			b.L.Pos, b.L.Readings = d.L.Pos, joined
			skip, err := p.number(l, items, i+1)
			return 1 + skip, err
		}
	}
	if i+1 < len(items) && items[i+1].Where != nil && !items[i+1].Where.Ceiling && !l.SaidWall(items[i+1].Pos.Offset) {
		if i+2 < len(items) && (items[i+2].Support != nil || items[i+2].Name != "") {
			return 0, l.Refuse(items[i+2].Pos, fmt.Sprintf(`"of" before it: %s %s of strap 3`, d.L.Raw(), items[i+1].Where.Wall))
		}
		return 0, l.Refuse(items[i+1].Pos, fmt.Sprintf(`"off" before a wall: %s off %s`, d.L.Raw(), items[i+1].Where.Wall))
	}
	last, held := true, 0
	for _, it := range items[i+1:] {
		last = last && it.Paint
		if it.Num != nil && !it.Num.Plain() {
			held++
		}
		if it.Num != nil && it.Num.Plain() && it.Num.B == nil && d.L.Bare() && open {
			return 0, l.Refuse(d.L.Pos, fmt.Sprintf("which wall it is off: %s off west", d.L.Raw()))
		}
	}
	open = open && !(d.L.Bare() && (p.Fixing || held < 2 && len(d.L.Readings) == 1 && d.L.Readings[0].L > bareSize))
	if listed := i+1 < len(items) && items[i+1].Num != nil; open && d.L.Bare() && listed && (p.Surface.IsWall() && commaList.MatchString(l.Text) || inList.MatchString(l.Text)) { // "lights at 11 and 41 off the east"
		return 0, l.Refuse(d.L.Pos, fmt.Sprintf("which wall it is off: %s off west", d.L.Raw()))
	}
	if open && !(last && p.Surface != "") {
		p.SizeAsk = numbers.NumberOrSize(l, p.What, &d.L)
		p.SetSize(l, &d.L.Number, nil)
		p.edges = p.edges || slices.ContainsFunc(append(d.Tags, d.Tag), toEdge)
		return 0, nil
	}
	if !last || items[i].At != nil && p.Surface.IsWall() && d.L.Bare() { // "thermostat on the north wall at 60"
		return 0, l.Refuse(d.L.Pos, fmt.Sprintf("which wall it is off: %s off west", d.L.Raw()))
	}
	if len(p.Fixes) > 1 && !p.Sized && !p.NoSize && SizeSaid.MatchString(d.L.Raw()) { // "..., 4 inch"
		p.SetSize(l, &d.L.Number, nil)
		return 0, nil
	}
	p.Fixes = append(p.Fixes, d.Tagged(l, place.Fix{How: place.OffWall, Said: numbers.Said(l, &d.L.Number, numbers.Distances)}))
	return 0, nil
}

func (p *Where) SetSize(l *read.Source, a *numbers.Number, b *numbers.NeedAmong) {
	fit := numbers.Sizes
	switch {
	case isOpening(p.What):
		fit = numbers.OpeningSides
	case p.What == "blocking": // as long as its wall
		fit.Most = numbers.Distances.Most
	}
	side := func(n *numbers.Number) length.Length {
		v, err := numbers.Within(l, n, fit)
		if err == nil && v.Tag != length.Exact {
			err = l.Refuse(n.Pos, "a size without strong or shy")
		}
		if p.SizeErr == nil {
			p.SizeErr = err
		}
		return v.L
	}
	p.Size.A, p.Sized = side(a), true
	if b != nil {
		p.Size.B = side(&b.Number)
	}
}

// along turns a distance off a wall into one along a support: "44 3/8 off east along strap 3".
func (p *Where) along(l *read.Source, it *PlaceItem) error {
	of := it.Along.of(l)
	if len(p.Fixes) == 0 || p.Fixes[len(p.Fixes)-1].How != place.OffWall {
		return l.Refuse(it.Pos, `a distance before "along strap 3 from east"`)
	}
	f := &p.Fixes[len(p.Fixes)-1]
	f.How, f.Of = place.Along, of
	if f.Side != "" || f.Notch || f.Main {
		return l.Refuse(it.Pos, wallsFit)
	}
	return nil
}

// bareSize is the largest size that may be given without a unit: a duct of 14 in. A larger bare number is
// a distance whose wall is missing, unless two others already give the place.
const bareSize = 14 * length.Inch

// trailing refuses words after the distances.
func trailing(l *read.Source, it *PlaceItem) error {
	if room, ok := strings.CutPrefix(it.Label.Text, "in "); ok {
		return l.NoRoom(it.Pos.Offset+strings.Index(l.Text[it.Pos.Offset:], " ")+1, room)
	}
	return l.Refuse(it.Pos, read.Words.Rows["thing"].Fits)
}

// inList matches bare numbers that share what follows them, so none is a size.
var (
	inList    = pattern.Compile(`(?i)\d ?(?:and|&|\+|n) ?\d|\d,\d|\bat \d+, \d`)
	commaList = pattern.Compile(`\d, \d`)
)

// SizeSaid matches a length that is more likely the size of a thing than its place.
var SizeSaid = pattern.Compile(`^(?:\d|1[0-4])(?: ?"| ?in(?:ch)?)$`)

// Openings maps the starts of lines about openings in the framing to their kinds.
var Openings = map[string]string{
	"door": "door", "doorway": "door", "door opening": "door", "door rough opening": "door", "patio door": "door", "sliding door": "door", "garage door": "door", "closet door": "door",
	"window": "window", "window opening": "window", "window rough opening": "window",
	"skylight": "skylight", "skylight opening": "skylight",
}

// isOpening reports whether a thing of that kind is a rough opening.
func isOpening(what string) bool { return Openings[what] == what && what != "" }

// Offs inserts "off" between a distance and its wall, and "of" between a direction and a support, if they
// are missing or misspelt.
func Offs(l *read.Source) []read.Edit {
	var cuts []read.Edit
	for i, t := range l.Tokens {
		if i == 0 || t.EOF() || l.Tokens[i+1].Value == "of" {
			continue
		}
		before := l.Tokens[i-1]
		switch {
		case t.Type == lex.Wall && before.Value == "of" && (i < 2 || l.Tokens[i-2].Type != lex.Wall):
			cuts = append(cuts, read.Edit{From: before.Pos.Offset, To: before.Pos.Offset + len("of"), Text: "off"})
		case t.Type == lex.Wall && l.AfterLength(t) && !l.SaidWall(t.Pos.Offset) && l.Tokens[i+1].Type != lex.Support && l.Tokens[i+1].Type != lex.Name:
			cuts = append(cuts, read.Edit{From: t.Pos.Offset, To: t.Pos.Offset, Text: "off "})
		case (t.Type == lex.Support || t.Type == lex.Name) && before.Type == lex.Wall && l.AfterLength(before):
			cuts = append(cuts, read.Edit{From: t.Pos.Offset, To: t.Pos.Offset, Text: "of "})
		}
	}
	return cuts
}
