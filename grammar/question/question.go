package question

import (
	"cmp"
	"regexp"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/places"
	"strapline/grammar/read"
	"strapline/grammar/topic"
	"strapline/grammar/unread"
)

// A question has a word that asks, and what it is about: a thing, a run, a strap, a row, a wall. The rules
// read it if the words are in one of their orders. Otherwise it is sorted by those words here, in any
// order, and put into one of our lines. All its other words must be small ones.

// query is what a question consists of.
type query struct {
	*lex.Reader
	said      map[string]bool
	things    []string // as people call them: "light over sink"
	kinds     []string // their kinds
	named     bool     // a thing was distinguished from others of its kind
	several   bool     // a kind was said in the plural
	panel     bool     // a panel is what may be needed
	wall      string   // on, in or behind which
	off       string   // off which
	row       string
	support   string
	piece     string // of the layout: r2.1
	opening   string // a kind of opening in the framing
	lengths   []string
	fixes     []string // those of them off a wall: "40 off west"
	screw     string   // the first of them that is off nothing
	trade     string   // whose notes
	check     string   // of the list of a room
	room      string   // a room that is noted
	rooms     bool     // several rooms are named: it is about the whole job
	strange   string   // the word for one that is not
	elsewhere bool     // it is about that one: nothing of the job is worked out
	label     string   // words from the names of things, without a kind
	strays    []string // the other words
	parts     map[string]bool
}

// Question returns what is asked, as one of our lines, or "".
func Question(l *read.Source, said string) string {
	first, last := said, said
	if f := strings.Fields(said); len(f) > 0 {
		first, last = f[0], f[len(f)-1]
	}
	asks := l.AsksSomething()
	if !asks && !begging[first] && !sizing[first] && !sizing[last] && last != "where" && !strings.Contains(said, " position ") && !strings.Contains(said, "what do ") && !strings.Contains(said, "what am ") && !strings.Contains(said, "what size ") && !strings.HasPrefix(said, "cut size") {
		return ""
	}
	q := sorted(l, said)
	sure, ofRoom, told := asks && unread.OfJob(l), q.room != "" || l.Room != "", len(q.lengths) == 0 || q.counted(said)
	return q.means(l, table, func(r row) bool {
		left := q.left(r)
		if q.elsewhere && r.means != ofLengths {
			return false
		}
		if r.plain {
			return told && !q.parts["@vague"] && (left == 0 || left == 1 && q.parts["@aim"] || left < mostStrays && sure)
		}
		return (asks || left == 0) && (sure || ofRoom || left == 0 || r.own)
	})
}

// sizing are words that ask for sizes at either end of a line, if each of its other words has a part in that.
var sizing = lex.Set("size", "sizes", "cuts", "length", "lengths")

// Order returns what somebody says to do or not to do with a noted thing, as one of our lines, or "".
func Order(l *read.Source, said string) string {
	q := sorted(l, said)
	if q == nil {
		return ""
	}
	return q.means(l, orders, func(r row) bool { return q.left(r) < 3 })
}

// ofLengths is what is worked out from the lengths of a question alone.
const ofLengths = "$rest"

// sorted sorts the words of a line.
func sorted(l *read.Source, said string) *query {
	for w := range strings.FieldsSeq(said) {
		if n := boardsIn[w]; n != "" {
			said = strings.Replace(said, w, n, 1)
		}
	}
	q := &query{Reader: lex.Read(grammar.WithOrdinals(unread.BoardsSized(said)), l.Reader.Names), said: map[string]bool{}}
	q.Cut(0)
	for _, p := range q.Pieces {
		q.said[p.Low] = true
		for _, w := range topic.Plainly(p.Low) {
			q.said[w] = true
		}
		q.check = cmp.Or(q.check, asked[p.Low], topic.Checks[p.Low])
	}
	for i := 0; i < len(q.Tokens)-1; {
		i += q.take(l, i)
	}
	q.elsewhere = q.strange != "" && q.room == "" && l.Room == "" && !strings.Contains(q.Text, "room by room")
	q.sort(l)
	return q
}

// means returns the line of the first row that may be meant and fits.
func (q *query) means(l *read.Source, table []row, may func(row) bool) string {
	for _, r := range table {
		if !may(r) || !r.fits(q) {
			continue
		}
		means, ok := q.put(r.means)
		if !ok {
			continue
		}
		if q.room != "" && !q.rooms && l.Room == "" && means != "" {
			means = q.room + ": " + means
		}
		return means
	}
	return ""
}

// boardsIn are boards by their length, in words.
var boardsIn = map[string]string{"eights": "8s", "nines": "9s", "tens": "10s", "twelves": "12s", "fourteens": "14s", "sixteens": "16s"}

// clipped are things by their first letters.
var clipped = map[string]string{"dl": "light", "pl": "light", "sa": "smoke alarm"}

// mostStrays is how many unknown words a question about the job may contain.
const mostStrays = 6

// asked are words for checks in questions only.
var asked = map[string]string{"inspection": "inspection", "inspections": "inspection", "inspector": "inspection", "inspected": "inspection", "taped": "taped", "sanded": "sanded", "primed": "primed"}

// sort finds the parts of the question.
func (q *query) sort(l *read.Source) {
	if i := slices.Index(q.kinds, "hatch"); i >= 0 && (q.said["need"] || q.said["needs"] || q.said["needed"] || q.said["required"]) {
		q.things, q.kinds, q.panel = slices.Delete(q.things, i, i+1), slices.Delete(q.kinds, i, i+1), true
	}
	kind := ""
	if len(q.kinds) > 0 && !(q.said["screws"] && q.kinds[0] == "box") {
		kind = q.kinds[0]
	}
	q.parts = map[string]bool{
		"@thing": len(q.things) > 0, "@lone": len(q.things) == 0 || q.said["screws"] && q.kinds[0] == "box", "@two": len(q.things) == 2, "@named": q.named, "@several": q.several, "@panel": q.panel,
		"@service": kind != "" && service(kind), "@run": slices.ContainsFunc(q.kinds, runs),
		"@room": q.room != "" || l.Room != "", "@here": q.said["here"] || q.said["this"] && q.said["room"], "@wall": q.wall != "", "@row": q.row != "",
		"@support": q.support != "" && q.support != "s", "@supports": q.support == "s", "@length": len(q.lengths) > 0, "@lengths": len(q.lengths) > 1,
		"@fix": len(q.fixes) == 1, "@fixes": len(q.fixes) == 2, "@trade": q.trade != "", "@check": q.check != "", "@label": q.label != "", "@rooms": q.rooms || q.said["rooms"], "@opening": q.opening != "",
		"@live":     slices.ContainsFunc([]string{"live", "hot", "dead", "energized", "energised", "powered"}, func(w string) bool { return q.said[w] }),
		"@boardsof": unread.BoardsOf.MatchString(q.Text),
		"@mark":     l.Question, "@any": true, "@bare": len(q.Pieces) == 1, "@piece": q.piece != "", "@off": q.off != "",
		"@vague": q.row == "" && q.said["row"] && !q.said["which"] && !q.said["what"] || len(q.lengths) > 0 && (q.said["x"] || q.said["by"]) ||
			kind != "" && !q.named && (q.said["in"] || q.said["on"] || q.said["at"]) && q.said["what"] && strings.HasSuffix(l.AsSaid(), kind),
		"@aim": len(q.things)+len(q.lengths) > 0 && slices.ContainsFunc([]string{"where", "how", "who", "when", "which"}, func(w string) bool { return q.said[w] }),
	}
	q.parts["@board"] = q.parts["@boardsof"] || slices.ContainsFunc([]string{"board", "boards", "bds", "footers", "footer", "foots", "hand", "stock"}, func(w string) bool { return q.said[w] })
}

// has reports whether a word is in the question, or a part of it. @few and @clean are of the words that have no part in the row.
func (q *query) has(w string, r row) bool {
	switch {
	case w == "@clean":
		return q.left(r) == 0
	case w == "@few":
		return q.left(r) < 3
	case w[0] == '@':
		return q.parts[w]
	}
	return q.said[w]
}

// left returns how many words have no part in a question of that row.
func (q *query) left(r row) (n int) {
	for _, w := range q.strays {
		if !r.part[w] && !topic.Day[w] && !slices.ContainsFunc(topic.Plainly(w), func(w string) bool { return r.part[w] }) && !(r.part["@opening"] && places.Openings[strings.TrimSuffix(w, "s")] != "") && !(r.part["@piece"] && strings.HasPrefix(q.piece, w)) && !(r.part["@label"] && strings.Contains(" "+q.label+" ", " "+w+" ")) {
			n++
		}
	}
	return n
}

// counted reports whether a question about a cut has its lengths in figures, without words beside them
// that a phone may have written for a number.
func (q *query) counted(said string) bool {
	for i, p := range q.Pieces {
		if lex.Numeral(p.Low) || lex.Heard(p.Low) || p.Low == "to" || p.Low == "for" && i+1 < len(q.Pieces) && q.Pieces[i+1].Kind != '0' && q.Pieces[i+1].Low != "a" {
			return false
		}
	}
	return !strings.HasPrefix(said, "gap")
}

// begging are words that ask without a question word.
var begging = lex.Set("cant", "can't", "lost", "forgot", "list", "show", "give", "read", "tell", "remind", "location", "position", "distance", "spacing", "anything", "anybody", "anyone", "everything",
	"somebody", "when", "whens", "hows", "where's", "where'd", "screw")

// service and runs report whether a kind is what runs through a ceiling.
func service(kind string) bool { return lex.Phrases.Whole(kind).Type == lex.Service }
func runs(kind string) bool    { return service(kind) || kind == "duct" }

// take sorts the token at i and returns how many it took.
func (q *query) take(l *read.Source, i int) int {
	t, next := q.Tokens[i], q.Tokens[i+1]
	before := lexer.Token{}
	if i > 0 {
		before = q.Tokens[i-1]
	}
	switch {
	case t.Type == lex.Thing && q.Pieces[q.at(t)].Low == "spot" && next.Type != lex.Number: // "any pipe over that spot"
	case t.Type == lex.Thing && next.Type == lex.Number && strings.Trim(q.lengthAt(next), "0123456789") == "" && !q.several && q.Tokens[i+2].Value != "off":
		q.things, q.kinds, q.named = append(q.things, t.Value+" "+q.Pieces[q.at(next)].Low), append(q.kinds, t.Value), true
		return 2
	case t.Type == lex.Name && (t.Value == "m2"):
	case t.Type == lex.Thing, t.Type == lex.Service, t.Type == lex.Name:
		return q.thing(l, i)
	case t.Type == lex.Word && lex.Ordinal[t.Value] > 0 && next.Type == lex.Thing:
		q.things, q.kinds, q.named = append(q.things, t.Value+" "+next.Value), append(q.kinds, next.Value), true
		return 2
	case q.Pieces[q.at(t)].Low == lex.Middle && next.Type == lex.Thing:
		q.things, q.kinds, q.named = append(q.things, lex.Middle+" "+next.Value), append(q.kinds, next.Value), true
		return 2
	case t.Type == lex.Word && l.Noun != nil && l.Noun(t.Value) && !topic.Small[t.Value] && (next.Type == lex.Thing || next.Type == lex.Word && l.Noun(next.Value)):
		return q.thing(l, i)
	case t.Type == lex.Wall:
		at := q.at(t) + 1
		ofWall := q.row != "" && before.Type == lex.Number && at < len(q.Pieces) && q.Pieces[at].Low == "wall" // "row 2 east wall"
		if w := wordBeforeIn(l, q.Reader, t); ofWall || w == "on" || w == "in" || w == "behind" || w == "at" {
			q.wall = t.Value
		} else if before.Value == "off" || w == "to" {
			q.off = t.Value
		}
	case t.Type == lex.Support && next.Type == lex.Number && !strings.HasSuffix(q.Pieces[q.at(t)].Low, "s"): // "are the straps 16 or 24"
		q.support = strings.TrimSuffix(t.Value, "s") + " " + q.Pieces[q.at(next)].Low
		return 2
	case t.Type == lex.Support:
		q.support += "s"
	case t.Type == lex.Key && t.Value == "row" && next.Type == lex.Number:
		q.row = q.Pieces[q.at(next)].Low
		return 2
	case t.Type == lex.Number && q.counts(i):
	case t.Type == lex.Number && before.Value == "what" || t.Type == lex.Number && q.lengthAt(t) == "one":
	case t.Type == lex.Number:
		said := q.lengthAt(t)
		if said == "" {
			q.strays = append(q.strays, "")
			return 1
		}
		k := 1
		for !q.Tokens[i+k].EOF() && q.Tokens[i+k].Pos.Offset < t.Pos.Offset+len(said) {
			k++
		}
		if next := q.Tokens[i+k]; feet.MatchString(said) && next.Type == lex.Number && inches.MatchString(q.lengthAt(next)) && (q.said["wall"] || q.said["high"] || q.said["height"]) { // "the wall is 8 1"
			said, k = said+"'"+q.lengthAt(next), k+1
		}
		if doubt, rest, ok := strings.Cut(said, " "); ok && roughly[doubt] { // around a place is looked anyway
			said = rest
		}
		q.lengths = append(q.lengths, said)
		from := i + k
		off := q.Tokens[from].Value == "off"
		if off {
			from++
		}
		if q.Tokens[from].Type == lex.Wall {
			q.fixes = append(q.fixes, said+" off "+q.Tokens[from].Value)
		} else if v := q.Tokens[from].Value; (v == "up" || v == "high") && onWall.MatchString(q.Text) {
			q.fixes = append(q.fixes, said+" up")
		} else if !off && q.screw == "" {
			q.screw = said
		}
		return k
	case t.Type == lex.Word && places.Openings[strings.TrimSuffix(t.Value, "s")] != "":
		q.opening = places.Openings[strings.TrimSuffix(t.Value, "s")]
		q.strays = append(q.strays, t.Value)
	case q.said["where"] && clipped[t.Value] != "" && len(q.things) == 0 && (q.at(t) > 0 || next.Type == lex.Word): // "where dl"
		q.things, q.kinds = append(q.things, clipped[t.Value]), append(q.kinds, clipped[t.Value])
	case t.Type == lex.Word && unread.Trades[t.Value] && q.trade == "":
		q.trade = t.Value
	case t.Type == lex.Room:
		q.inRoom(t.Value)
	case t.Type == lex.Word && topic.RoomNoun[topic.Stem(t.Value)] && !(l.Noun != nil && l.Noun(t.Value)):
		if room := roomOf(l, t.Value); room != "" {
			q.inRoom(room)
		} else if q.room == "" && before.Value != "or" && next.Value != "or" { // "street or hall" are ends of a room
			q.strange = t.Value
		}
	case t.Type == lex.Word && !topic.Small[t.Value] && l.Noun != nil && l.Noun(t.Value):
		q.strays, q.label = append(q.strays, t.Value), strings.TrimSpace(q.label+" "+t.Value)
	case t.Type == lex.Word && !topic.Small[t.Value] && topic.Checks[t.Value]+asked[t.Value] == "" && l.Rooms[t.Value] == "", t.Type == lex.Key && !asksKeys[t.Value]:
		q.strays = append(q.strays, q.Pieces[q.at(t)].Low)
	}
	return 1
}

// inRoom notes a room that the question names.
func (q *query) inRoom(room string) {
	q.rooms = q.rooms || q.room != "" && q.room != room
	q.room = room
}

// roomOf returns the noted room that a word for a room names: the bath is the bathroom, and the hall the front hall,
// unless there is another.
func roomOf(l *read.Source, word string) string {
	stem := topic.Stem(word)
	if room := cmp.Or(l.Rooms[word], l.Rooms[stem]); room != "" {
		return room
	}
	found := map[string]bool{}
	for said, room := range l.Rooms {
		if slices.ContainsFunc(strings.Fields(said), func(w string) bool { return topic.Stem(w) == stem }) {
			found[room] = true
		}
	}
	for room := range found {
		if len(found) == 1 {
			return room
		}
	}
	return ""
}

// counts reports whether the number at i says how many things are meant: "the two kitchen lights".
func (q *query) counts(i int) bool {
	if strings.Trim(q.lengthAt(q.Tokens[i]), "0123456789") != "" && !lex.Numeral(q.Pieces[q.at(q.Tokens[i])].Low) {
		return false
	}
	for n := i + 1; n < min(i+4, len(q.Tokens)); n++ {
		switch t := q.Tokens[n]; {
		case t.Type == lex.Thing:
			w := lex.Lower(strings.TrimRight(q.Read[t.Pos.Offset:q.Tokens[n+1].Pos.Offset], " ,"))
			return strings.HasSuffix(w, "s") && !strings.HasSuffix(t.Value, "s")
		case t.Type != lex.Room && t.Type != lex.Word:
			return false
		}
	}
	return false
}

// lengthAt returns the length at a token as it was said, "" if there is none.
func (q *query) lengthAt(t lexer.Token) string {
	_, n, _ := measure.Scan(q.Read[t.Pos.Offset:], q.Units, measure.List)
	return strings.TrimSpace(q.Read[t.Pos.Offset : t.Pos.Offset+n])
}

// feet and inches match the two numbers of a height without their signs.
var (
	feet   = regexp.MustCompile(`^\d{1,2}$`)
	inches = regexp.MustCompile(`^(?:\d|1[01])(?: \d+/\d+)?$`)
)

// roughly are words of doubt before a length.
var roughly = lex.Set("about", "approx", "approximately", "around", "roughly", "maybe", "almost", "nearly", "like")

// onWall matches a place on a wall.
var onWall = regexp.MustCompile(`\b(?:on|in|into|behind) (?:the )?\w+ wall\b`)

// pieceNamed matches a piece of the layout.
var pieceNamed = regexp.MustCompile(`\br\d+(?:\.\d+)?\b`)

// at returns the piece with which a token begins.
func (q *query) at(t lexer.Token) int {
	for i, p := range q.Pieces {
		if p.Start == t.Pos.Offset {
			return i
		}
	}
	return 0
}

// wordBeforeIn returns the word before a token of a reader, without "the".
func wordBeforeIn(l *read.Source, r *lex.Reader, t lexer.Token) string {
	word := ""
	for _, p := range r.Pieces {
		if p.Start >= t.Pos.Offset {
			break
		}
		if p.Low != "the" {
			word = p.Low
		}
	}
	return word
}

// thing takes the words that name a thing: its kind or its name, and neighbouring words from the name of
// something noted.
func (q *query) thing(l *read.Source, i int) int {
	from := i
	var said []string
	kind := ""
	for ; !q.Tokens[i].EOF(); i++ {
		t, next := q.Tokens[i], q.Tokens[i+1]
		noun := t.Type == lex.Word && l.Noun != nil && l.Noun(t.Value) && !topic.Small[t.Value]
		switch {
		case t.Type == lex.Name && len(said) == 0 && t.Value[0] == 'r' && lex.Shape(t.Value) && !(l.Name != nil && l.Name(t.Value)):
			q.strays, q.piece = append(q.strays, t.Value), pieceNamed.FindString(q.Text)
			if !lex.IsPiece(t.Value) {
				q.strays = append(q.strays, "")
			}
			return 1
		case t.Type == lex.Name && len(said) == 0:
			q.things, q.kinds, q.named = append(q.things, t.Value), append(q.kinds, ""), true
			return 1
		case t.Type == lex.Thing, t.Type == lex.Service:
			if kind != "" && kind != t.Value {
				break
			}
			if w := q.Pieces[q.at(t)].Low; kind == "" && strings.HasSuffix(w, "s") && !strings.HasSuffix(t.Value, "s") {
				q.several = true
			}
			kind = t.Value
			said = append(said, kind)
			continue
		case noun && !(kind != "" && next.Type == lex.Thing): // another thing
			said = append(said, t.Value)
			continue
		case kind != "" && beside[t.Value] && next.Type == lex.Word && l.Noun != nil && l.Noun(next.Value) && !topic.Small[next.Value]:
			continue
		}
		break
	}
	if kind == "" {
		q.strays, q.label = append(q.strays, said...), strings.TrimSpace(q.label+" "+strings.Join(said, " "))
		return max(1, i-from)
	}
	q.named = q.named || len(said) > 1
	q.things, q.kinds = append(q.things, strings.Join(said, " ")), append(q.kinds, kind)
	return max(1, i-from)
}

// beside are words between a thing and what it is near.
var beside = lex.Set("over", "above", "by", "near", "beside", "at", "next", "to", "under", "below", "behind", "for")

// asksKeys are words of the rules that any question may contain.
var asksKeys = lex.Set("not", "of", "at", "on", "off", "up", "to", "row", "ceiling", "between", "along", "in the middle", "oc", "on hand", "x", "even")
