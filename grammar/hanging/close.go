package hanging

import (
	"regexp"
	"strconv"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/numbers"
	"strapline/grammar/places"
	"strapline/grammar/quantity"
	"strapline/grammar/read"
)

// Code: `code us`, `code canada`.
type Code struct{ Code string }

func (e Code) String() string   { return "code " + e.Code }
func (Code) Kind() grammar.Kind { return "code" }

func (s *codeSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	code := codes[s.Code]
	if code == "" {
		return nil, l.Refuse(l.Tokens[1].Pos, "us or canada")
	}
	return Code{code}, nil
}

type codeSyntax struct {
	Code string `parser:"'code' @Word"`
}

// codes are the ways to name the rules in force.
var codes = map[string]string{"us": "us", "usa": "us", "u.s": "us", "u.s.a": "us", "american": "us", "irc": "us", "nec": "us",
	"canada": "canada", "canadian": "canada", "nbc": "canada", "ca": "canada"}

// Set: `set margin 3/8`, `set waste 10`, `set compound 9 per 1000`: the lead's own numbers.
// What: margin, set (how far a head is driven below the face), stagger, sliver, short, rip (lengths in L);
// waste (percent), compound (gallons per Per sq ft), box (screws in a box), rated (minutes of fire, 0 for none) (in N).
type Set struct {
	What string
	L    length.Said
	N    float64
	Per  int
}

func (e Set) String() string {
	switch e.What {
	case "waste":
		return canon.Say("set waste", canon.Decimal(e.N)+"%")
	case "compound", "box", "rated":
		return canon.Say("set", e.What, canon.Decimal(e.N), canon.Some("per", e.Per))
	}
	return canon.Say("set", e.What, e.L.String())
}
func (Set) Kind() grammar.Kind { return "set" }

func (s *setSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	if s.L != nil {
		e := Set{What: s.Length}
		if s.Head {
			e.What = "set"
		}
		switch {
		case s.Length == "clearance":
			return boards.Clearance{L: numbers.Said(l, &s.L.Number, numbers.Clearances)}, nil
		case s.Screw && !s.Head:
			return boards.Screw{L: numbers.Said(l, &s.L.Number, numbers.Screws)}, nil
		}
		e.L = numbers.Said(l, &s.L.Number, settings)
		return e, nil
	}
	e := Set{What: s.Number, N: s.N.N}
	switch {
	case s.Per == nil:
	case s.Number != "compound" || s.Per.N < 1 || s.Per.N > 100_000:
		return nil, l.Refuse(s.Per.Pos, "compound alone goes by the square foot: set compound 9 per 1000")
	default:
		e.Per = s.Per.N
	}
	return e, nil
}

type setSyntax struct {
	Length string              `parser:"'set' (  (  @('margin' | 'stagger' | 'sliver' | 'short' | 'rip' | 'set' | 'clearance')"`
	Screw  bool                `parser:"          | @'screw'"`
	Head   bool                `parser:"            @('set' | 'depth')? ) 'to'?"`
	L      *numbers.NeedLength `parser:"         @@"`
	Number string              `parser:"       | @('waste' | 'compound' | 'box' | 'rated') ('of' | 'to')?"`
	N      *numbers.Amount     `parser:"         @@"`
	Per    *numbers.Count      `parser:"         ( 'per' @@ ('sq' 'ft' | 'sqft')? )? )"`
}

// settings are the limits of the lead's own lengths. They are wide, since the handlers ask about odd
// values.
var settings = numbers.Bounds{What: "a setting", Most: 10 * length.Foot}

// Reach: `reach`, `reach 1 5/8` (with that screw), `reach 1 5/8 at 40 off west, 30 off north` (at that place).
type Reach struct {
	Screw   length.Said
	Surface place.Surface
	Fixes   []place.Fix
}

func (e Reach) String() string {
	at := canon.Located{On: e.Surface, Fixes: e.Fixes}
	return canon.Say("reach", e.Screw, canon.Tail(len(e.Fixes) > 0 || e.Surface != "", "at"), at)
}
func (Reach) Kind() grammar.Kind { return "reach" }

func (s *reachSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	var e Reach
	if s.Screw != nil {
		e.Screw = numbers.Said(l, &s.Screw.Number, numbers.Screws)
	}
	if !s.Place {
		return e, nil
	}
	p := places.Where{NoSize: true}
	if err := p.Read(l, s.At); err != nil {
		return nil, err
	}
	if p.Sized || p.Name != "" || p.Label != "" || p.Even || p.Paint || len(p.Fixes) == 0 {
		return nil, l.RefuseEnd(`two distances: "at 40 off west 30 off north"`)
	}
	e.Surface, e.Fixes = p.Surface, p.Fixes
	return e, nil
}

// reachSyntax is "reach", with a screw, a place or both.
type reachSyntax struct {
	Screw *numbers.OneLength  `parser:"'reach' @@? ('screw' | 'screws')?"`
	Place bool                `parser:"( @'at'"`
	At    []*places.PlaceItem `parser:"  @@* )?"`
}

// Screws: `screws`, `how many screws`, `screws for row 3`.
type Screws struct {
	Row     int           // 0 means all rows
	Surface place.Surface // "" means all that is planned, or the ceiling's row
}

func (e Screws) String() string {
	return canon.Say("how many screws", canon.Some("row", e.Row), e.Surface)
}
func (Screws) Kind() grammar.Kind { return "screws" }

func (s *screwsSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	if s.L == nil {
		e := Screws{Surface: s.On.Surface()}
		if s.Row != nil {
			e.Row, e.Surface = numbers.Counted(l, s.Row), s.RowOn.Surface()
		}
		return e, nil
	}
	if s.Courtesy != nil || strings.Contains(lex.Lower(l.Text[:l.Ended]), "how") {
		return nil, l.Refuse(s.L.Pos, read.Words.Rows["screws"].Fits)
	}
	return boards.Screw{L: numbers.Said(l, &s.L.Number, numbers.Screws)}, nil
}

type screwsSyntax struct {
	Courtesy *read.Courtesy      `parser:"'screws' @@?"`
	L        *numbers.OneLength  `parser:"( @@"`
	Row      *numbers.Count      `parser:"| (?= ('for' | 'in' | 'on')? 'row' ) ('for' | 'in' | 'on')? 'row' @@"`
	RowOn    *places.WhereSyntax `parser:"  ( 'on'? @@ )?"`
	On       *places.WhereSyntax `parser:"| 'on'? @@ )?"`
}

// Ready: `ready`, `is kitchen ready`, `kitchen good to close?`.
type Ready struct{}

func (e Ready) String() string   { return "ready" }
func (Ready) Kind() grammar.Kind { return "ready" }

func (s *readySyntax) Entry(*read.Source) (grammar.Entry, error) { return Ready{}, nil }

type readySyntax struct {
	Said bool `parser:"@'ready' 'up'? 'yet'?"`
}

// Handoff: `handoff`, `handoff taper`, `handoff electrician`, `handoff painter`.
type Handoff struct{ To string }

func (e Handoff) String() string   { return canon.Say("handoff", e.To) }
func (Handoff) Kind() grammar.Kind { return "handoff" }

func (s *handoffSyntax) Entry(*read.Source) (grammar.Entry, error) { return Handoff{s.To}, nil }

type handoffSyntax struct {
	To string `parser:"'handoff' 'to'? @('taper' | 'electrician' | 'painter' | 'hanger')?"`
}

// Coat: `coat 2 60f 70%`, `coat 1 16c damp`; N is 0 for the air that the last one dries in, `coat air 70%`.
type Coat struct {
	N   int
	Air string // canonical, see [quantity.Air]
}

func (e Coat) String() string {
	if e.N == 0 {
		return "coat air " + e.Air
	}
	return canon.Say("coat", e.N, e.Air)
}
func (Coat) Kind() grammar.Kind { return "coat" }

// NextCoat: `coat due 55f damp`: when the next may go on, in the air that was noted or in this.
type NextCoat struct{ Air string }

func (e NextCoat) String() string   { return canon.Say("coat due", e.Air) }
func (NextCoat) Kind() grammar.Kind { return "nextcoat" }

func (s *coatSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	if s.N == nil {
		air, err := airOf(l, s.Air)
		return Coat{Air: air}, err
	}
	if s.N.N < 1 || s.N.N > mostCoats {
		return nil, l.Refuse(s.N.Pos, "the number of the coat: coat 2")
	}
	air, err := airOf(l, s.Air)
	return Coat{s.N.N, air}, err
}

func (s *nextCoatSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	air, err := airOf(l, s.Air)
	return NextCoat{air}, err
}

type nextCoatSyntax struct {
	Air *read.Anything `parser:"'nextcoat' @@?"`
}

// airOf reads temperature and humidity in any order.
func airOf(l *read.Source, said *read.Anything) (string, error) {
	if said == nil {
		return "", nil
	}
	all := lex.Lower(l.Read[said.Pos.Offset:])
	refused := func(word, want string) error { return l.RefuseAt(said.Pos.Offset+strings.LastIndex(all, word), want) }
	air, rest := quantity.Air(all, l.Units == length.Metric)
	if left := strings.Fields(airNone.ReplaceAllString(rest, " ")); len(left) > 0 {
		return "", refused(left[0], read.Words.Rows["coat"].Fits)
	}
	for word := range strings.FieldsSeq(air) {
		if rh, ok := strings.CutSuffix(word, "%"); ok {
			if n, _ := strconv.ParseFloat(rh, 64); n > 100 {
				return "", refused(rh, "a humidity up to 100%")
			}
		}
	}
	return air, nil
}

type coatSyntax struct {
	N   *numbers.Count `parser:"'coat' ( @@ | (?= 'air' Number ) 'air' )"`
	Air *read.Anything `parser:"@@?"`
}

var airNone = regexp.MustCompile(`[,;:]|\b(?:and|at|with|is|it|its|it's|on|went|done)\b|-\s`)

const mostCoats = 9

var CloseKinds = []read.Row{
	{Command: read.Command{Kind: "reach", Words: []string{"reach", "where not to screw"}, Talk: []string{"can we use"}, About: "how far the screw comes through, and where not to screw", Example: "reach 1 5/8", Metric: "reach 41mm",
		Fits: `nothing, the length of a screw, or "at" and a place: at 40 off west 30 off north`},
		Rule: read.Rule[reachSyntax](), Makes: []grammar.Entry{Reach{}}, Asks: true, OfRoom: true,
		Chat: (*read.Source).InWords,
	},
	{Command: read.Command{Kind: "code", Words: []string{"code"}, About: "whose rules hold; the strictest until it is said", Example: "code canada", Fits: "us or canada"},
		Rule: read.Rule[codeSyntax](), Makes: []grammar.Entry{Code{}},
		Chat: func(l *read.Source) bool { return l.Has(lex.Number, "") }, // of a door
	},
	{Command: read.Command{Kind: "screws", Words: []string{"screws", "how many screws", "screw count"}, About: "how many screws a ceiling takes, and the boxes to bring",
		Example: "how many screws", Fits: `nothing, a row, or "in" and a room`},
		Rule: read.Rule[screwsSyntax](), Makes: []grammar.Entry{Screws{}}, Asks: true, OfRoom: true,
		Chat: (*read.Source).InWords,
	},
	{Command: read.Command{Kind: "ready", Words: []string{"ready", "ready to close", "good to close", "ok to close", "can we close"}, Talk: []string{"we ready"}, About: "whether a room can be closed, and what is open", Example: "ready", Fits: "nothing, or a room"},
		Rule: read.Rule[readySyntax](), Makes: []grammar.Entry{Ready{}}, Asks: true, OfRoom: true,
		Chat: read.Always,
	},
	{Command: read.Command{Kind: "check", Words: []string{"check"}, About: "something on the list of a room that passed, failed or is waived, or one more for the list",
		Example: "check nails ok", Fits: `what, then "ok", "failed", "open" or "waived" and why; or "add" and what`},
		Rule: read.Rule[checkSyntax](), Makes: []grammar.Entry{Check{}}, Text: true},
	{Command: read.Command{Kind: "handoff", Words: []string{"handoff", "hand off", "hand-off", "handover", "hand over"}, About: "what the next trade has to know",
		Example: "handoff taper", Fits: "nothing, or taper, electrician, painter or hanger"},
		Rule: read.Rule[handoffSyntax](), Makes: []grammar.Entry{Handoff{}}, Asks: true, OfRoom: true},
	{Command: read.Command{Kind: "coat", Words: []string{"coat"}, About: "a coat of compound, with the air it dries in: when the next may follow",
		Example: "coat 2 60f 70%", Metric: "coat 2 16c 70%", Fits: `the number of the coat, then "60f" or "16c", "70%" or "damp"`},
		Rule: read.Rule[coatSyntax](), Makes: []grammar.Entry{Coat{}}, OfRoom: true},
	{Command: read.Command{Kind: "nextcoat", Words: []string{"coat due"}, About: "when the next coat may go on, or the sanding, in the air that was noted or in this", Example: "coat due 55f damp", Metric: "coat due 13c damp",
		Fits: `nothing, or "60f" or "16c", "70%" or "damp"`}, Rule: read.Rule[nextCoatSyntax](), Makes: []grammar.Entry{NextCoat{}}, Asks: true, OfRoom: true, Chat: read.Always},
	{Command: read.Command{Kind: "painted", Words: []string{"painted"}, About: "the ceiling is painted: the lights that waited for it are due", Example: "ceiling painted", Fits: "nothing, or a room"},
		Rule: read.Rule[boards.PlanAskSyntax](), Makes: []grammar.Entry{boards.Painted{}}, OfRoom: true},
}

var SetKinds = []read.Row{
	{Command: read.Command{Kind: "set", Words: []string{"set"}, About: "your own number: margin, set, stagger, sliver, short, rip, waste, compound, box, rated (minutes of fire)",
		Example: "set waste 10", Fits: `"margin 3/8", "screw depth 1/16", "stagger 24", "sliver 8", "short 20", "rip 3/8", "waste 10%", "compound 9 per 1000", "box 500" or "rated 60"`},
		Rule: read.Rule[setSyntax](), Makes: []grammar.Entry{Set{}}},
	{Command: read.Command{Kind: "texture", Words: []string{"texture", "textured", "no texture"}, About: "whether a water-based texture goes on the ceiling", Example: "texture",
		Fits: "nothing, or a room"},
		Rule: read.Rule[boards.PlanAskSyntax](), Makes: []grammar.Entry{boards.Texture{}}, OfRoom: true},
}
