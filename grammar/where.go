package grammar

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
)

// instead says what would fit after "off" at the item.
func (it *placeItem) instead(d *distance) string {
	switch {
	case it.Support != nil:
		return fmt.Sprintf("a wall, or a direction: %s south of strap %d", d.L.raw(), it.Support.N.N)
	case it.Name != "":
		return fmt.Sprintf("a wall, or a direction: %s south of %s", d.L.raw(), it.Name)
	}
	return wallsFit
}

// placeItem is one part of a place, in any order.
type placeItem struct {
	Pos     lexer.Position
	Num     *distance     `parser:"  @@"`
	Label   *label        `parser:"| @@"`
	Name    string        `parser:"| @Name"`
	Along   *targetSyntax `parser:"| 'along' @@"`
	OnWhat  *supportN     `parser:"| 'on' ( @@"`
	On      *whereSyntax  `parser:"       | @@"`
	OnSide  string        `parser:"       | @Place"`
	OnNone  *noSurface    `parser:"       | @@ )"`
	Where   *whereSyntax  `parser:"| @@"`
	Support *supportN     `parser:"| @@"`
	Room    string        `parser:"| @Room"`
	Even    bool          `parser:"| @'even'"`
	Paint   bool          `parser:"| @'after paint'"`
	At      *distance     `parser:"| 'at' @@"`
	Mid     bool          `parser:"| @'in the middle'"`
	Half    string        `parser:"| 'halfway' @Direction"`
	Half2   *whereSyntax  `parser:"| 'halfway along' @@"`
	Between *betweenPair  `parser:"| 'between' @@"`
}

// betweenPair is two supports of one kind.
type betweenPair struct {
	One   supportN `parser:"@@"`
	Kind  string   `parser:"@Support?"`
	Other count    `parser:"@@"`
}

// halfway is the middle of the room: east-west, or north-south.
func halfway(run place.Direction) place.Fix {
	if run == place.NS {
		return place.Fix{How: place.Mid, Dir: place.North}
	}
	return place.Fix{How: place.Mid, Dir: place.West}
}

// idle reports whether the words between a thing and its distances only say that it is there.
func idle(said string) bool {
	for w := range strings.FieldsSeq(said) {
		if !idleWords[w] {
			return false
		}
	}
	return said != ""
}

var idleWords = lex.Set("goes", "go", "going", "sits", "sit", "sitting", "located", "location", "position", "positioned", "mounted", "placed", "lands", "set", "comes", "measured", "measures", "it's", "its", "there", "extra", "adding", "added", "marked", "installed", "still")

// where is what the items after a thing, a mark or a name say together.
type where struct {
	what    string // the kind that the items follow
	Size    place.Size
	sized   bool
	paint   bool
	fixing  bool  // a size needs its unit
	noSize  bool  // a bare number is not a size here
	sizeAsk error // a size that may be the thing's number
	sizeErr error // only reported if the line says where the thing is
	Name    string
	Label   string
	Surface place.Surface
	Fixes   []place.Fix
	even    bool
	counts  *distance  // 3 x 2, if "even" follows
	mid     bool       // in the middle of whatever no distance gives
	halfOn  place.Wall // "halfway along the north wall": also its surface, if a height is given
}

// read combines the items. A bare number is the size if none was given yet, or it belongs to the wall
// before it ("west 26 north 41"), or, if last, it is a distance off a wall that was not said.
func (p *where) read(l *line, items []*placeItem) error {
	if len(items) > 0 && items[0].Num != nil && p.what != "" && !p.sized {
		l.alone(&items[0].Num.L.number, p.what, "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
	}
	tailed, paired := false, false // "26 off west", "west 26"
	var aside *placeItem           // "on left wall": asks which one, provided that a height shows that it is a wall
	for _, it := range items {
		if it.At != nil {
			it.Num = it.At
		}
		tailed = tailed || it.Num != nil && it.Num.Off
	}
	for i := 0; i < len(items); i++ {
		it := items[i]
		var next *placeItem
		if i+1 < len(items) {
			next = items[i+1]
		}
		switch {
		case it.Even:
			p.even = true
		case it.Paint:
			p.paint = true
		case it.Room != "":
			if len(p.Fixes) > 0 {
				return l.refuse(it.Pos, `"in" before a room`)
			}
			l.inRoom(it.Room)
		case it.Name != "":
			if p.Name != "" || len(it.Name) == 1 { // a single letter is a mark's
				return l.refuse(it.Pos, "one name, like d1")
			}
			p.Name = it.Name
		case it.Label != nil && idle(it.Label.Text):
		case it.Label != nil:
			if p.Label != "" || len(p.Fixes) > 0 {
				return l.trailing(it)
			}
			p.Label = it.Label.Text
			if i > 0 && items[i-1].Num != nil {
				if err := l.ganged(&items[i-1].Num.L.number, &it.Label.saying); err != nil {
					return err
				}
			}
			if next != nil && next.Num != nil {
				if err := l.labelled(&it.Label.saying); err != nil {
					return err
				}
			}
		case it.OnSide == "left", it.OnSide == "right":
			aside = it
		case it.OnSide != "":
			return l.refuse(it.Pos, "a strap and its number, a wall or the ceiling")
		case it.On != nil:
			p.Surface = it.On.surface()
		case it.OnWhat != nil, it.Support != nil:
			on := it.OnWhat
			if on == nil {
				if on = it.Support; len(p.Fixes) > 0 {
					return l.refuse(it.Pos, `"on" before it`)
				}
			}
			p.Fixes = append(p.Fixes, place.Fix{How: place.OnLine, Of: on.of(l)})
		case it.Mid:
			p.mid = true
		case it.Half != "":
			p.Fixes = append(p.Fixes, halfway(place.Direction(it.Half)))
		case it.Half2 != nil:
			run := place.EW
			if w := place.Wall(it.Half2.Wall); across(w) {
				p.halfOn = w
			} else {
				run, p.halfOn = place.NS, w
			}
			p.Fixes = append(p.Fixes, halfway(run))
		case it.Between != nil:
			of := it.Between.One.of(l)
			if it.Between.Kind != "" && it.Between.Kind != string(of.Sup) {
				return l.refuse(it.Between.Other.Pos, "two supports of one kind: between strap 3 and 4")
			}
			p.Fixes = append(p.Fixes, place.Fix{How: place.Between, Of: place.Of{Sup: of.Sup, N: of.N}, M: int16(min(l.counted(&it.Between.Other), math.MaxInt16))})
		case it.Along != nil:
			if err := p.along(l, it); err != nil {
				return err
			}
		case it.Where != nil && it.Where.Shape+it.Where.Face+it.Where.Alone != "":
			if p.Surface != "" {
				return l.refuse(it.Pos, "one surface")
			}
			p.Surface = it.Where.surface()
		case it.Where != nil:
			bare := next != nil && next.Num != nil && next.Num.plain()
			switch {
			case bare && !tailed && !it.Where.Ceiling:
				f := place.Fix{How: place.OffWall, Said: l.said(&next.Num.L.number, distances), Wall: place.Wall(it.Where.Wall)}
				p.Fixes = append(p.Fixes, next.Num.tag(l, f))
				paired = true
				i++
			case bare && !it.Where.Ceiling && !l.saidWall(it.Pos.Offset):
				return l.refuse(next.Num.L.Pos, fmt.Sprintf(`"off" and a wall: %s off west`, next.Num.L.raw()))
			case p.Surface != "" || paired || len(p.Fixes) > 0 && !it.Where.Ceiling && !l.saidWall(it.Pos.Offset):
				return l.refuse(it.Pos, `a distance and "off" before a wall`)
			default:
				p.Surface = it.Where.surface()
			}
		default:
			skip, err := p.number(l, items, i)
			if err != nil {
				return err
			}
			i += skip
		}
	}
	if p.mid {
		p.middle()
	}
	if p.halfOn != "" && p.Surface == "" && slices.ContainsFunc(p.Fixes, func(f place.Fix) bool { return f.How == place.UpFrom || f.How == place.DownTo }) {
		p.Surface = place.Surface(p.halfOn)
	}
	if aside != nil && (p.Surface != "" || !slices.ContainsFunc(p.Fixes, func(f place.Fix) bool { return f.How == place.UpFrom || f.How == place.DownTo })) {
		return l.refuse(aside.Pos, wallsFit)
	}
	return nil
}

// middle fills each coordinate that no distance gives with the middle of the room.
func (p *where) middle() {
	var said [2]bool
	for _, f := range p.Fixes {
		if w := cmp.Or(f.Wall, f.Dir); w != "" && across(w) {
			said[1] = true
		} else if w != "" {
			said[0] = true
		}
	}
	for k, run := range []place.Direction{place.EW, place.NS} {
		if !said[k] || said[0] && said[1] {
			p.Fixes = append(p.Fixes, halfway(run))
		}
	}
}

// number reads the distance at item i and returns how many more items it took.
func (p *where) number(l *line, items []*placeItem, i int) (int, error) {
	d := items[i].Num
	if d.B != nil {
		_, ok := d.L.whole()
		_, ok2 := d.B.whole()
		if (ok || ok2 || p.sized) && slices.ContainsFunc(items, func(it *placeItem) bool { return it.Even }) {
			if p.counts != nil {
				return 0, l.refuse(d.L.Pos, "one grid: 3 x 2")
			}
			p.counts = d
			return 0, nil
		}
		if p.sized || len(p.Fixes) > 0 && (len(p.Fixes) < 2 || i+1 < len(items)) || !d.plain() {
			return 0, l.refuse(d.L.Pos, "one size")
		}
		p.size(l, &d.L.number, d.B)
		return 0, nil
	}
	if !d.plain() {
		if d.offWhat() && i+1 < len(items) && items[i+1].Num == nil && items[i+1].On == nil && !items[i+1].Paint {
			return 0, l.refuse(items[i+1].Pos, items[i+1].instead(d))
		}
		p.Fixes = append(p.Fixes, d.fix(l))
		return 0, nil
	}
	open := !p.sized && !p.noSize && len(p.Fixes) == 0
	if i+1 < len(items) && items[i+1].Num != nil && items[i+1].Num.B == nil {
		b := items[i+1].Num
		if joined, ok := l.joined(&d.L.number, &b.L.number); ok {
			if open {
				return 0, l.oneOrTwo(&d.L.number, &b.L.number)
			}
			b.L.Pos, b.L.Readings = d.L.Pos, joined
			skip, err := p.number(l, items, i+1)
			return 1 + skip, err
		}
	}
	if i+1 < len(items) && items[i+1].Where != nil && !items[i+1].Where.Ceiling && !l.saidWall(items[i+1].Pos.Offset) {
		if i+2 < len(items) && (items[i+2].Support != nil || items[i+2].Name != "") {
			return 0, l.refuse(items[i+2].Pos, fmt.Sprintf(`"of" before it: %s %s of strap 3`, d.L.raw(), items[i+1].Where.Wall))
		}
		return 0, l.refuse(items[i+1].Pos, fmt.Sprintf(`"off" before a wall: %s off %s`, d.L.raw(), items[i+1].Where.Wall))
	}
	last, held := true, 0
	for _, it := range items[i+1:] {
		last = last && it.Paint
		if it.Num != nil && !it.Num.plain() {
			held++
		}
		if it.Num != nil && it.Num.plain() && it.Num.B == nil && d.L.bare() && open {
			return 0, l.refuse(d.L.Pos, fmt.Sprintf("which wall it is off: %s off west", d.L.raw()))
		}
	}
	open = open && !(d.L.bare() && (p.fixing || held < 2 && len(d.L.Readings) == 1 && d.L.Readings[0].L > bareSize))
	if open && !(last && p.Surface != "") {
		p.sizeAsk = l.numberOrSize(p.what, &d.L)
		p.size(l, &d.L.number, nil)
		return 0, nil
	}
	if !last {
		return 0, l.refuse(d.L.Pos, fmt.Sprintf("which wall it is off: %s off west", d.L.raw()))
	}
	if len(p.Fixes) > 1 && !p.sized && !p.noSize && sizeSaid.MatchString(d.L.raw()) { // "..., 4 inch"
		p.size(l, &d.L.number, nil)
		return 0, nil
	}
	p.Fixes = append(p.Fixes, d.tag(l, place.Fix{How: place.OffWall, Said: l.said(&d.L.number, distances)}))
	return 0, nil
}

func (p *where) size(l *line, a *number, b *needAmong) {
	fit := sizes
	if isOpening(p.what) {
		fit = openingSides
	}
	side := func(n *number) length.Length {
		v, err := l.within(n, fit)
		if err == nil && v.Tag != length.Exact {
			err = l.refuse(n.Pos, "a size without strong or shy")
		}
		if p.sizeErr == nil {
			p.sizeErr = err
		}
		return v.L
	}
	p.Size.A, p.sized = side(a), true
	if b != nil {
		p.Size.B = side(&b.number)
	}
}

// along turns a distance off a wall into one along a support: "44 3/8 off east along strap 3".
func (p *where) along(l *line, it *placeItem) error {
	of := it.Along.of(l)
	if len(p.Fixes) == 0 || p.Fixes[len(p.Fixes)-1].How != place.OffWall {
		return l.refuse(it.Pos, `a distance before "along": 44 3/8 along strap 3 from east`)
	}
	f := &p.Fixes[len(p.Fixes)-1]
	f.How, f.Of = place.Along, of
	if f.Side != "" || f.Notch || f.Main {
		return l.refuse(it.Pos, wallsFit)
	}
	return nil
}

// bareSize is the largest size that may be given without a unit: a duct of 14 in. A larger bare number is
// a distance whose wall is missing, unless two others already give the place.
const bareSize = 14 * length.Inch

// trailing refuses words after the distances.
func (l *line) trailing(it *placeItem) error {
	if room, ok := strings.CutPrefix(it.Label.Text, "in "); ok {
		return l.noRoom(it.Pos.Offset+strings.Index(l.Text[it.Pos.Offset:], " ")+1, room)
	}
	return l.refuse(it.Pos, words.rows["thing"].Fits)
}

// saidWall reports whether the wall at this byte was followed by "wall".
func (l *line) saidWall(offset int) bool {
	for i, p := range l.Pieces {
		if p.Start >= offset && p.Low == "wall" {
			return i > 0 && (l.Pieces[i-1].Start == offset || l.Pieces[i-1].Start > offset && i > 1 && l.Pieces[i-2].Start >= offset && l.Pieces[i-2].Start == offset)
		}
	}
	return false
}
