package record

import (
	"regexp"
	"strconv"
	"strings"

	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/read"
	"strapline/grammar/rooms"
)

// Note: `note ...`, kept word for word. Kept: nobody typed "note", and nothing else could be made of it;
// Hint is then a line with the sender's own values that would put it on the plan, Wrong says what is wrong in one
// of our forms; "" if there is none.
type Note struct {
	Text  string
	Kept  bool   `json:",omitempty"`
	Hint  string `json:",omitempty"`
	Wrong string `json:",omitempty"`
}

func (e Note) String() string   { return "note " + e.Text }
func (Note) Kind() grammar.Kind { return "note" }

// Snag: `snag screw missed strap 4 row 2`; Fixed N > 0: `snag 3 fixed`; Done: told as mended, `snag fixed: gap filled`.
type Snag struct {
	Text  string
	Fixed int
	Done  bool `json:",omitempty"`
}

func (e Snag) String() string {
	if e.Fixed > 0 {
		return canon.Say("snag", e.Fixed, "fixed")
	}
	if e.Done {
		return "snag fixed: " + e.Text
	}
	return "snag " + e.Text
}
func (Snag) Kind() grammar.Kind { return "snag" }

func (s *textSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	switch s.What {
	case "note":
		return Note{Text: s.Text}, nil
	case "job":
		title := strings.TrimRight(strings.ToLower(strings.Join(strings.Fields(s.Text), " ")), ".!")
		title = titled.ReplaceAllString(title, "")
		if l.TalkIn(lex.Plain(title)) != "" || lex.Plain(title) == "" || len(title) > 80 {
			return nil, l.Refuse(l.Tokens[1].Pos, "a title")
		}
		return rooms.Job{Title: title}, nil
	}
	said := strings.Fields(strings.ToLower(strings.TrimRight(s.Text, ".!")))
	if len(said) >= 2 && (said[len(said)-1] == "fixed" || said[len(said)-1] == "done") && (len(said) == 2 || len(said) == 3 && said[1] == "is") {
		if n, err := strconv.Atoi(strings.TrimPrefix(said[0], "#")); err == nil && n > 0 {
			return Snag{Fixed: n}, nil
		}
	}
	if len(said) == 1 && (said[0] == "list" || said[0] == "lists") {
		return nil, l.Refuse(l.Tokens[1].Pos, "what is wrong")
	}
	if text, done := strings.CutPrefix(s.Text, "fixed: "); done {
		return Snag{Text: text, Done: true}, nil
	}
	return Snag{Text: s.Text}, nil
}

// titled are words before a job's title.
var titled = regexp.MustCompile(`^(?:(?:name |title )?is (?:called )?(?:the )?|called )`)

// textSyntax keeps what follows word for word.
type textSyntax struct {
	What string `parser:"@('note' | 'snag' | 'job')"`
	Text string `parser:"@Text"`
}

// Snags: `snags`: those that are open.
type Snags struct{}

func (e Snags) String() string   { return "snags" }
func (Snags) Kind() grammar.Kind { return "snags" }

// Hit: `hit water`, `hit cable`, `hit gas`, or `hit pipe` without saying of what.
type Hit struct{ What string }

func (e Hit) String() string   { return "hit " + e.What }
func (Hit) Kind() grammar.Kind { return "hit" }

func (s *hitSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	what := ""
	if strings.Contains(l.Text[:l.Ended], "gas") { // "we smell gas"
		what = "gas"
	}
	for _, w := range s.What {
		if k := hits[w]; k == "gas" || what == "" || what == "pipe" && k != "" {
			what = k
		}
	}
	if said := lex.Lower(l.Text); what == "pipe" && (strings.Contains(said, "water") || strings.Contains(said, "pex")) { // "a water pipe"
		what = "water"
	}
	if what == "" {
		return nil, l.RefuseEnd(read.Words.Rows["hit"].Fits)
	}
	return Hit{what}, nil
}

type hitSyntax struct {
	What []string       `parser:"'hit' ( (?= Word Service) Word )? @(Service | 'line' | 'main' | 'live' | 'electric' | 'power')*"`
	At   *read.Anything `parser:"( (?= ( 'in' | 'at' | 'on' | 'over' | 'near' | 'by' | 'behind' | 'row' | Number | Support | Wall | Punct ) ) @@ )?"` // its text has the place
}

// hits are the words for what was hit.
var hits = map[string]string{"water": "water", "pipe": "pipe", "pex": "water", "plumbing": "water",
	"cable": "cable", "wire": "cable", "wiring": "cable", "conduit": "cable", "electric": "cable", "power": "cable", "gas": "gas", "heat tube": "water"}

var NoteKinds = []read.Row{
	{Command: read.Command{Kind: "note", Words: []string{"note"}, About: "anything else, kept word for word",
		Example: "note window comes out on friday", Fits: "the words to keep"},
		Rule: read.Rule[textSyntax](), Makes: []grammar.Entry{Note{}}, Asks: true, Text: true},
	{Command: read.Command{Kind: "snag", Words: []string{"snag"}, About: "something to mend later",
		Example: "snag screw missed strap 4 row 2", Fits: `what is wrong, or "3 fixed"`, Strict: true},
		Rule: read.Rule[textSyntax](), Makes: []grammar.Entry{Snag{}}, Asks: true, Text: true},
	{Command: read.Command{Kind: "snags", Words: []string{"snags", "what snags", "open snags", "any snags", "which snags", "list snags", "snag list", "snags open", "how many snags"},
		About: "the snags that are open, of the room or of all", Example: "snags", Fits: `nothing, or "in" and a room`},
		Rule: read.Rule[askSyntax](), Makes: []grammar.Entry{Snags{}}, Asks: true, OfRoom: true},
	{Command: read.Command{Kind: "hit", Words: []string{"hit", "gas leak"}, Talk: []string{"~ hit", "~ smell gas"},
		About: "a screw or a blade met water, cable or gas: what to do first", Example: "hit water", Fits: "water, cable, gas or pipe"},
		Rule: read.Rule[hitSyntax](), Makes: []grammar.Entry{Hit{}}},
}
