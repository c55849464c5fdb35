package places

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/numbers"
	"strapline/grammar/pattern"
	"strapline/grammar/read"
)

// Distance is a number and what it is measured from, with tags before or after that. It is parsed by hand,
// because half of what is noted is distances, and participle takes twenty times as long for one:
//
//	aLength ("x" needAmong)? <tag>?
//	  ("off" (<wall> | <place> | "ceiling")? | "up" | "down" | "high" | <wall> "of" TargetSyntax | "along" TargetSyntax ("off" needWall)? | <place>)? <tag>*
type Distance struct {
	L     numbers.ALength
	B     *numbers.NeedAmong
	Tag   string
	Off   bool
	Wall  string
	Place string
	Up    string
	Dir   string
	Of    *targetSyntax
	Along *targetSyntax
	From  *NeedWall
	Side  string
	Tags  []string
}

func (d *Distance) Parse(in *lexer.PeekingLexer) (err error) {
	if err := d.L.Parse(in); err != nil {
		return err
	}
	if accept(in, "x") {
		d.B = new(numbers.NeedAmong)
		if err := d.B.Parse(in); err != nil {
			return err
		}
	}
	if in.Peek().Type == lex.Tag {
		d.Tag = in.Next().Value
	}
	switch t := in.Peek(); {
	case t.Value == "off":
		in.Next()
		d.Off = true
		switch t := in.Peek(); {
		case t.Type == lex.Wall:
			d.Wall = in.Next().Value
		case t.Type == lex.Place, t.Value == "ceiling":
			d.Place = in.Next().Value
		}
	case t.Value == "up", t.Value == "down", t.Value == "high":
		d.Up = in.Next().Value
	case t.Type == lex.Wall:
		before := in.MakeCheckpoint()
		d.Dir = in.Next().Value
		if !accept(in, "of") {
			d.Dir = ""
			in.LoadCheckpoint(before)
			break
		}
		d.Of, err = target(in)
	case t.Value == "along":
		in.Next()
		if d.Along, err = target(in); err != nil {
			return err
		}
		if accept(in, "off") {
			d.From = new(NeedWall)
			err = d.From.Parse(in)
		}
	case t.Type == lex.Place:
		d.Side = in.Next().Value
	}
	for in.Peek().Type == lex.Tag {
		d.Tags = append(d.Tags, in.Next().Value)
	}
	return err
}

// accept takes the next token if it is that word.
func accept(in *lexer.PeekingLexer, word string) bool {
	ok := in.Peek().Value == word
	if ok {
		in.Next()
	}
	return ok
}

func (s *targetSyntax) of(l *read.Source) place.Of {
	if s.Wall != "" {
		numbers.Fault(l, l.Refuse(s.Pos, "a strap and its number, a mark or a noted thing"))
	}
	if s.Support != nil {
		return s.Support.Of(l)
	}
	if s.Said == nil {
		return place.Of{Name: strings.TrimPrefix(s.Name, "mark ")}
	}
	name := l.NameOf(s.Said.Text)
	switch {
	case s.Said.First == lex.Word && lex.Ordinal[name] > 0 && l.Last.What != "": // "of the first"
		name += " " + l.Last.What
	case !l.MayName(name):
		numbers.Fault(l, l.Refuse(s.Pos, "a strap and its number, a mark or a noted thing"))
	}
	return place.Of{Name: name}
}

// LastSaid are words for the thing noted last.
var LastSaid = lex.Set("that", "it", "that one", "last", "last one", "this", "this one")

// target reads what a distance is measured from.
var target = func() func(*lexer.PeekingLexer) (*targetSyntax, error) {
	p := participle.MustBuild[targetSyntax](participle.Lexer(lex.Symbols{}), participle.UseLookahead(0))
	read.Written = append(read.Written, p.String)
	return func(in *lexer.PeekingLexer) (*targetSyntax, error) {
		return p.ParseFromLexer(in, participle.AllowTrailing(true))
	}
}()

type targetSyntax struct {
	Pos     lexer.Position
	Support *SupportN `parser:"( @@"`
	Name    string    `parser:"| 'mark'? @Name"`
	Wall    string    `parser:"| @Wall"`
	Said    *read.Aim `parser:"| @@ )"`
}

func (d *Distance) Plain() bool {
	return d.floor() == "" && !d.Off && d.Of == nil && d.Along == nil && d.Up == "" && d.Side == ""
}

// OffWhat reports whether it is "26 off" without anything to be off.
func (d *Distance) OffWhat() bool {
	return d.Off && d.Wall == "" && d.Place == "" && d.Tags == nil
}

func (d *Distance) Fix(l *read.Source) place.Fix {
	f := place.Fix{How: place.OffWall, Said: numbers.Said(l, &d.L.Number, numbers.Distances)}
	switch {
	case d.Off:
		f.Wall = place.Wall(d.Wall)
		switch d.Place {
		case "floor":
			f.How = place.UpFrom
		case "ceiling":
			f.How = place.DownTo
		default:
			f.Side = d.Place
		}
	case d.Of != nil && d.Of.Wall != "": // "26 south of the north wall"
		if f.Wall = place.Wall(d.Of.Wall); place.Wall(d.Dir) == f.Wall || place.Wall(d.Dir).Along() != f.Wall.Along() {
			numbers.Fault(l, l.Refuse(d.Of.Pos, fmt.Sprintf("the wall it is off: %s off west", d.L.Raw())))
		}
	case d.Of != nil:
		f.How, f.Dir, f.Of = place.DirOf, place.Wall(d.Dir), d.Of.of(l)
	case d.Along != nil:
		f.How, f.Wall, f.Of = place.Along, d.From.Or(""), d.Along.of(l)
	case d.Up == "down":
		f.How = place.DownTo
	case d.Up != "":
		f.How = place.UpFrom
	case d.Side == "floor":
		numbers.Fault(l, l.Refuse(d.L.Pos, fmt.Sprintf(`"off" before the floor: %s off floor`, d.L.Raw())))
	case d.floor() != "":
		f.How = place.UpFrom
	default:
		f.Side = d.Side
	}
	return d.Tagged(l, f)
}

// floor returns the floor that a height is measured from, if said.
func (d *Distance) floor() place.Face {
	for _, t := range append([]string{d.Tag}, d.Tags...) {
		if t == string(place.Subfloor) || t == string(place.FinishedFloor) {
			return place.Face(t)
		}
	}
	return ""
}

// toEdge reports whether a tag says that a distance goes to the near edge.
func toEdge(tag string) bool { return tag == "edge" || tag == "to edge" }

// Tagged adds what the distance goes to: "to edge", "studs", "notch".
func (d *Distance) Tagged(l *read.Source, f place.Fix) place.Fix {
	for _, t := range append([]string{d.Tag}, d.Tags...) {
		switch t {
		case "edge", "to edge":
			f.ToEdge, f.ToCentre = true, false
		case "centre":
			f.ToEdge, f.ToCentre = false, true
		case "studs", "bare":
			f.Face = place.Framing
		case "board":
			f.Face = place.BoardFace
		case "notch":
			f.Notch = true
		case "main":
			f.Main = true
		case "on plan":
			f.Level = true
		}
	}
	if floor := d.floor(); floor != "" && f.How == place.UpFrom && f.Face == "" {
		f.Face = floor
		return f
	} else if floor != "" {
		numbers.Fault(l, l.Refuse(d.L.Pos, fmt.Sprintf("a height: %s up", d.L.Raw())))
	}
	if (f.Notch || f.Main || f.Level) && (f.How != place.OffWall || f.Wall == "") || f.Face != "" && f.How != place.OffWall && f.How != place.Along && f.How != place.DownTo {
		numbers.Fault(l, l.Refuse(d.L.Pos, "a wall with what is said of it"))
	}
	return f
}

// waySaid is the way that something runs by a side of the room: "the short way", "square to the long wall", "running the 14".
var waySaid = pattern.Compile(`(?i)(parallel (?:to|with) |along |(?:perpendicular|square|at right angles) to )?(?:the )?(?:(short|long)(?:er)?|(\d(?:[\d.'"’ -]|,\d)*)(?: ?(?:m|mm|ft|feet|foot))?) (way|side|wall)\b|` +
	`\b(?:(?:run|runs|running|go|goes|going)(?: across| along| with)?|across|along|with|parallel (?:to|with)|spans?|spanning) (the (\d(?:[\d.'"’ -]|,\d)*?)(?: and (?:the )?(\d[\d.'"’ -]*?))?(?: ?(?:m|mm|ft|feet|foot))?(?: (?:way|side|wall))?)(?:$|;|,(?:\D|$)|\.(?:$| )| (?:at|on|and|with|in|first|every)\b)|\b(?:(length|long)|cross|width)[ -]?(?:wise|ways)\b`)

// wayWords are words of which each match of waySaid has one: it takes a third of the time to read a plain question.
var wayWords = []string{"way", "side", "wall", "run", "go", "across", "along", "with", "parallel", "span", "wise"}

// wayIs tells, for a room being noted, which way it means.
var wayIs = regexp.MustCompile(`(?i)^ (?:runs?|is|are|goes) `)

// ofFraming matches what runs along a wall without being at it.
var ofFraming = regexp.MustCompile(`(?i)\b(?:strap|furr|joist|rafter|truss|batten|channel|boards?\b|sheets?\b)`)

// ofRooms are words of several rooms: each has its own short way.
var ofRooms = regexp.MustCompile(`(?i)\b(?:both|each|every|everywhere)\b`)

// Way replaces "the short way" and "the 12' way" by a direction, if the sides of the room that is named, or of c, tell which.
func Way(c *grammar.Context, text string) string {
	if low := lex.Lower(text); !slices.ContainsFunc(wayWords, func(w string) bool { return strings.Contains(low, w) }) {
		return text
	}
	m := waySaid.FindStringSubmatchIndex(text)
	if m == nil || wayIs.MatchString(text[m[1]:]) {
		return text
	}
	said := func(group int) string {
		return strings.ToLower(strings.TrimSpace(text[max(m[2*group], 0):max(m[2*group+1], 0)]))
	}
	ew, ns, from, to := c.EW, c.NS, m[0], m[1]
	if c.Sides != nil {
		if l := read.CutLine(text, c); l.Room2 != "" || ofRooms.MatchString(text) {
			return text
		} else if l.Room != "" {
			ew, ns = c.Sides(l.Room)
		}
	}
	runs := cmp.Or(Along(c, said(3)+said(6), ew, ns), Along(c, said(7), ew, ns))
	switch {
	case said(5) != "": // the words before and behind it stay
		from, to = m[10], m[11]
	case (said(1) == "" || said(1) == "along" && !ofFraming.MatchString(text)) && (said(4) == "side" || said(4) == "wall"): // it is a place
		return text
	case said(3) == "" && ew != ns:
		runs = map[bool]place.Direction{true: place.EW, false: place.NS}[(said(2) == "long" || said(8) != "") == (ew > ns)]
	}
	if square := said(1); runs != "" && square != "" && square[:3] != "par" && square[:3] != "alo" {
		runs = map[place.Direction]place.Direction{place.EW: place.NS, place.NS: place.EW}[runs]
	}
	return text[:from] + cmp.Or(string(runs), text[from:to]) + text[to:]
}

// Along returns the direction of a side of a room as long as it was said, "" if it is none of them or may be either.
func Along(c *grammar.Context, said string, ew, ns length.Length) place.Direction {
	return Within(c, said, ew, ns, 6*length.Inch)
}

// Within is like Along, for a side that is said to be as long but for so much.
func Within(c *grammar.Context, said string, ew, ns, off length.Length) place.Direction {
	near := map[bool]bool{}
	if c.Units == length.Metric {
		said = strings.Replace(said, ",", ".", 1)
	}
	for _, s := range []string{said, strings.Replace(said, "-", "' ", 1), strings.Replace(said, " ", "' ", 1)} {
		r, n, _ := measure.Scan(s, c.Units, measure.List)
		for _, k := range []length.Length{1, 12, 1000} {
			for _, got := range r {
				for _, side := range []length.Length{ew, ns} {
					if d := side - got.L*k; n == len(s) && side > 0 && -off < d && d < off {
						near[side == ew] = true
					}
				}
			}
		}
	}
	switch {
	case ew == ns || near[true] == near[false]:
		return ""
	case near[true]:
		return place.EW
	}
	return place.NS
}
