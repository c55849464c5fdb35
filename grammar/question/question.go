package question

import (
	"cmp"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
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
	said    map[string]bool
	things  []string // as people call them: "light over sink"
	kinds   []string // their kinds
	named   bool     // a thing was distinguished from others of its kind
	several bool     // a kind was said in the plural
	wall    string   // on, in or behind which
	off     string   // off which
	row     string
	support string
	lengths []string
	fixes   []string // those of them off a wall: "40 off west"
	screw   string   // the first of them that is off nothing
	trade   string   // whose notes
	room    string   // a room that is noted
	strange string   // the word for one that is not
	strays  int
}

// Question returns what is asked, as one of our lines, or "".
func Question(l *read.Source, said string) string {
	first, _, _ := strings.Cut(said, " ")
	asks := l.AsksSomething()
	if !asks && !begging[first] && !strings.HasSuffix(said, " where") && !strings.Contains(said, " position ") && !strings.Contains(said, "what do ") && !strings.Contains(said, "what size ") {
		return ""
	}
	q := query{Reader: lex.Read(grammar.WithOrdinals(said), l.Reader.Names), said: map[string]bool{}}
	q.Cut(0)
	for _, p := range q.Pieces {
		q.said[p.Low] = true
	}
	for i := 0; i < len(q.Tokens)-1; {
		i += q.take(l, i)
	}
	if q.strange != "" && l.Room == "" && !strings.Contains(q.Text, "room by room") { // of a room that is not noted nothing is worked out
		return ""
	}
	means := ""
	sure := asks && unread.OfJob(l)
	switch {
	case !asks:
	case q.has("status") && q.has("everything", "all", "rooms"), strings.Contains(q.Text, "room by room"):
		return "status"
	case q.has("miss", "new", "changed", "happened") && q.has("today", "morning", "since", "while", "yesterday") && len(q.things) == 0 && q.strays < 3:
		return "log today"
	case sure, q.strays == 0, q.room != "", l.Room != "":
		means = q.topic(l)
	}
	if means == "" && (q.strays == 0 || q.strays == 1 && len(q.things)+len(q.lengths) > 0 && q.has("where", "wheres", "where's", "how", "hows", "who", "when", "which") || q.strays < 6 && sure) &&
		(len(q.lengths) == 0 || q.counted(said)) {
		means = q.means(l)
	}
	if means != "" && q.room != "" && l.Room == "" {
		means = q.room + ": " + means
	}
	return means
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
var begging = lex.Set("list", "show", "give", "read", "tell", "remind", "location", "position", "distance", "spacing", "anything", "anybody", "anyone", "everything",
	"somebody", "when", "whens", "hows", "where's", "where'd", "screw")

// has reports whether one of the words is in the question.
func (q *query) has(words ...string) bool {
	for _, w := range words {
		if q.said[w] {
			return true
		}
	}
	return false
}

// take sorts the token at i and returns how many it took.
func (q *query) take(l *read.Source, i int) int {
	t, next := q.Tokens[i], q.Tokens[i+1]
	before := lexer.Token{}
	if i > 0 {
		before = q.Tokens[i-1]
	}
	switch {
	case t.Type == lex.Thing && q.Pieces[q.at(t)].Low == "spot" && next.Type != lex.Number: // "any pipe over that spot"
	case t.Type == lex.Key && t.Value == "down" && q.has("take", "took", "taken", "write", "wrote", "put"):
	case t.Type == lex.Thing && next.Type == lex.Number && strings.Trim(q.lengthAt(next), "0123456789") == "" && !q.several:
		q.things, q.kinds, q.named = append(q.things, t.Value+" "+q.Pieces[q.at(next)].Low), append(q.kinds, t.Value), true
		return 2
	case t.Type == lex.Thing, t.Type == lex.Service, t.Type == lex.Name:
		return q.thing(l, i)
	case t.Type == lex.Word && lex.Ordinal[t.Value] > 0 && next.Type == lex.Thing:
		q.things, q.kinds, q.named = append(q.things, t.Value+" "+next.Value), append(q.kinds, next.Value), true
		return 2
	case t.Type == lex.Word && l.Noun != nil && l.Noun(t.Value) && !topic.Small[t.Value] && (next.Type == lex.Thing || next.Type == lex.Word && l.Noun(next.Value)):
		return q.thing(l, i)
	case t.Type == lex.Wall:
		if w := wordBeforeIn(l, q.Reader, t); w == "on" || w == "in" || w == "behind" || w == "at" {
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
	case t.Type == lex.Number && before.Value == "what" || t.Type == lex.Number && q.Pieces[q.at(t)].Low == "one":
	case t.Type == lex.Number:
		said := q.lengthAt(t)
		if said == "" {
			q.strays++
			return 1
		}
		k := 1
		for !q.Tokens[i+k].EOF() && q.Tokens[i+k].Pos.Offset < t.Pos.Offset+len(said) {
			k++
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
		} else if !off && q.screw == "" {
			q.screw = said
		}
		return k
	case t.Type == lex.Word && unread.Trades[t.Value] && q.trade == "":
		q.trade = t.Value
	case t.Type == lex.Room:
		q.room = t.Value
	case t.Type == lex.Word && topic.RoomNoun[topic.Stem(t.Value)] && !(l.Noun != nil && l.Noun(t.Value)):
		if q.room = cmp.Or(l.Rooms[t.Value], l.Rooms[topic.Stem(t.Value)], q.room); q.room == "" {
			q.strange = t.Value
		}
	case t.Type == lex.Word && !topic.Small[t.Value] && l.Rooms[t.Value] == "", t.Type == lex.Key && !asksKeys[t.Value]:
		q.strays++
	}
	return 1
}

// lengthAt returns the length at a token as it was said, "" if there is none.
func (q *query) lengthAt(t lexer.Token) string {
	_, n, _ := measure.Scan(q.Read[t.Pos.Offset:], q.Units, measure.List)
	return strings.TrimSpace(q.Read[t.Pos.Offset : t.Pos.Offset+n])
}

// roughly are words of doubt before a length.
var roughly = lex.Set("about", "approx", "approximately", "around", "roughly", "maybe", "almost", "nearly", "like")

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
			q.strays += 2
			return 1
		case t.Type == lex.Name && len(said) == 0:
			q.things, q.kinds, q.named = append(q.things, t.Value), append(q.kinds, ""), true
			return 1
		case t.Type == lex.Thing, t.Type == lex.Service:
			if kind != "" && kind != t.Value {
				if noun {
					said = append(said, t.Value)
				}
				break
			}
			if w := q.Pieces[q.at(t)].Low; kind == "" && strings.HasSuffix(w, "s") && !strings.HasSuffix(t.Value, "s") {
				q.several = true
			}
			kind = t.Value
			said = append(said, kind)
			continue
		case noun:
			said = append(said, t.Value)
			continue
		case kind != "" && beside[t.Value] && next.Type == lex.Word && l.Noun != nil && l.Noun(next.Value) && !topic.Small[next.Value]:
			continue
		}
		break
	}
	if kind == "" {
		q.strays++
		return max(1, i-from)
	}
	q.named = q.named || len(said) > 1
	q.things, q.kinds = append(q.things, strings.Join(said, " ")), append(q.kinds, kind)
	return max(1, i-from)
}

// beside are words between a thing and what it is near.
var beside = lex.Set("over", "above", "by", "near", "beside", "at", "next", "to", "under", "below", "behind", "for")

// topic returns a question about the job as a whole, about boards, screws, framing or the state of a room,
// whatever else is said with it.
func (q *query) topic(l *read.Source) string {
	many := q.has("many", "much", "count", "any", "hows", "how's", "got")
	what := q.has("what", "whats", "what's", "which", "is", "was", "are", "were", "how")
	boards := q.has("board", "boards", "sheets", "sheet", "bds", "drywall", "footers", "footer", "foots") || unread.BoardsOf.MatchString(q.Text)
	thing := len(q.things) > 0 && !(q.has("screws") && q.kinds[0] == "box")
	room := q.room != "" || l.Room != ""
	switch {
	case q.has("status") && (room || q.strays == 0), q.has("hows", "how's") && !thing && room && !boards,
		q.has("how") && q.has("far", "along") && q.has("along") && !thing:
		return "status"
	case len(q.fixes) == 2 && q.has("hit", "safe", "safely", "above", "behind", "over", "under", "hook", "hang", "screw", "drill", "nail", "anchor", "there", "anything", "clear"):
		return strings.Join(strings.Fields("reach "+q.screw+" at "+strings.Join(q.fixes, ", ")), " ")
	case (q.has("screw", "screws", "screwed", "screwing", "nail", "drill", "anchor", "hook") && (q.has("hit", "safe", "safely", "avoid", "miss", "okay", "ok") || q.has("where") && q.has("can", "could", "should"))) && !q.has("spacing", "length"):
		return strings.TrimSpace("reach " + q.screw)
	case q.has("pipe", "pipes", "wire", "wires", "romex", "cable", "gas", "duct") && q.has("near", "nearby", "close", "around", "hit", "by") && q.has("is", "are", "any", "theres", "there's", "do", "will", "would", "isnt", "isn't") && len(q.kinds) > 0:
		for _, kind := range q.kinds {
			if lex.Phrases.Whole(kind).Type == lex.Service || kind == "duct" {
				return "any " + kind + " noted"
			}
		}
	case q.has("close", "cover", "closing", "closed", "ready", "go") && q.has("can", "ok", "okay", "good", "ready", "could") && !thing && !q.has("wall", "open") && q.wall == "" && (room || q.strays == 0 && q.has("close", "ready") && q.has("up", "lid", "ceiling", "it")) &&
		!q.has("who", "when", "where", "did"),
		q.has("stopping", "holding", "stops") && q.has("what", "whats", "what's"):
		return "ready"
	case boards && (many || q.has("where")) && q.has("left", "leftover", "leftovers", "remaining", "remain", "kicking", "around", "extra", "spare", "now", "still", "count") && !q.has("need", "order", "hang", "finish"):
		if m := unread.BoardsOf.FindStringSubmatch(q.Text); m != nil {
			return "how many " + m[1] + "s left"
		}
		return "boards left"
	case (boards || !thing && room && q.has("order", "ordering", "enough", "enuf")) && q.has("enough", "enuf", "short", "order", "ordering", "need", "needed", "finish") && !q.has("screws", "screw") && q.row == "":
		return "order"
	case q.has("screws", "screw") && !thing && q.row == "" && (q.has("spacing", "apart", "long", "length", "size", "count", "many", "boxes") || q.has("what", "which") && len(q.lengths) < 2) && !q.has("hit", "wrong", "popped", "snag", "snags", "missed"):
		return "how many screws"
	case q.has("joint", "joints", "butt", "butts", "seam", "seams") && !q.has("taped", "mud"):
		return "layout"
	case q.has("first", "start") && q.has("top") && q.has("bottom"):
		return "top or bottom first"
	case q.has("first", "before") && q.has("walls") && q.has("ceiling", "lid", "lids") && (q.has("or") || q.has("do", "hang", "board")):
		return "what goes up first"
	case q.has("snag", "snags", "popped") && !q.has("who", "when"):
		return "snags"
	case q.support == "s" && !thing && q.row == "" && !q.has("left", "bowed", "used", "who", "when", "whats", "what's") && (what || q.has("where", "wheres", "where's", "spacing", "apart")):
		return "list size"
	case q.has("square") && (room || q.has("room", "it", "corners", "walls")) && what:
		return "how square is it"
	case !thing && q.wall == "" && q.has("open") && q.has("what", "whats", "what's"):
		return canon.Tail(room, "list everything") + canon.Tail(!room, "status")
	case !thing && room && q.has("behind", "above", "buried", "in") && q.has("what", "whats", "what's", "anything") && q.has("ceiling", "lid", "board", "drywall") && !unread.BoardsOf.MatchString(q.Text) && !q.has("hang", "thick", "type"):
		return "list everything"
	case boards && !many && q.wall == "" && !thing && what && q.has("thickness", "thick", "type", "green", "purple", "moisture", "fire", "fireboard", "rated", "x", "longest", "kind", "regular"),
		q.has("thickness", "longest") && !thing && (boards || len(q.lengths) > 0) && q.support == "" && !q.has("strap", "straps"):
		return "list board"
	case thing && !q.several && q.has("covered", "buried") && q.has("who", "when", "whod"):
		return "find " + q.things[0]
	}
	return ""
}

// means returns the question as one of our lines.
func (q *query) means(l *read.Source) string {
	what, kind := "", ""
	if len(q.things) > 0 {
		what, kind = q.things[0], q.kinds[0]
	}
	where := q.has("where", "wheres", "where's", "location", "position", "distance", "whereabouts")
	switch {
	case q.row == "" && q.has("row") && !q.has("which", "what"), q.has("x", "by") && len(q.lengths) > 0, what != "" && !q.named && q.has("in", "on", "at") && q.has("what", "whats", "what's") && strings.HasSuffix(l.AsSaid(), kind):
		return ""
	case len(q.lengths) > 0 && len(q.lengths) <= 2 && what == "" && q.support == "" && q.wall == "" && q.has("cut", "gap", "opening"):
		return "gap " + strings.Join(q.lengths, ", ")
	case len(q.lengths) == 1 && q.has("screw", "screws") && q.has("hit", "reach", "catch", "through"):
		return "reach " + q.lengths[0]
	case len(q.lengths) > 0:
		return ""
	case q.has("screw", "screws", "screwing") && what == "" && !q.has("many") && q.has("where", "can", "safe", "should", "shouldnt", "shouldn't", "hit"):
		return "reach"
	case q.has("screw", "screws") && what == "" && q.row == "" && q.has("what", "whats", "which", "how", "spacing", "length", "long"):
		return "how many screws"
	case q.row != "" && what == "" && !q.has("what", "whats", "what's", "any", "anything", "something", "which"),
		q.has("hung", "hang", "hanging"), q.has("sheets", "boards"), q.has("many") && q.has("screws"):
		return ""
	case q.row != "" && (what == "" || !q.named):
		return strings.TrimSpace("any"+canon.Tail(kind == "", "thing")+" "+kind) + " over row " + q.row
	case what == "" && q.support != "" && q.support != "s":
		return canon.Tail(where || q.has("how"), "find "+strings.TrimSpace(q.support+" "+canon.Some("off", q.off)))
	case what == "" && q.support == "s":
		return canon.Tail(!where, "list size")
	case q.trade != "" && what != "" && q.has("say", "said", "note", "noted", "tell", "told"):
		return "log " + what
	case q.trade != "" && what == "":
		return canon.Tail(q.has("what", "whats", "what's", "when") && q.has("say", "said", "note", "noted", "put", "write", "tell", "told"), "log "+q.trade)
	case q.has("how") && q.has("do", "can") && q.has("add", "enter", "type", "tell") && kind != "":
		if q.has("moved", "wrong") {
			return "help fix"
		}
		return "help " + kind
	case q.has("who", "whos", "who's", "when", "whens") && what != "":
		return "log " + what
	case q.wall != "" && !q.has("how", "which") && !where && !q.named:
		return "list " + several(kind) + " on " + q.wall + " wall"
	case what == "" && q.wall == "" && q.has("last") && q.has("say", "said", "note", "noted", "read", "log", "entry", "sent", "tell"):
		return "log today"
	case q.has("cant", "can't", "cannot", "mustnt", "mustn't", "must", "shouldnt", "shouldn't", "never") && q.has("covered", "buried", "cover", "bury", "hidden"):
		return "ready" // what has to stay reachable is in it
	case q.has("covered", "buried") && what == "" && q.wall == "":
		return "covered"
	case what == "" && q.has("read", "give", "list", "show", "tell", "everything") && q.has("back", "everything", "all", "them") && !q.has("screw", "screws", "cut"),
		what == "" && q.has("what", "whats", "what's") && q.has("have", "got", "know", "noted", "there", "in") && q.has("room", "ceiling", "lid"):
		return "list everything"
	case what == "" && q.has("how", "whats", "what", "what's", "which") && q.has("big", "size", "high", "height", "long", "wide") && (q.has("room", "ceiling", "lid") || q.room != "" || l.Room != ""),
		what == "" && q.has("which", "what") && q.has("wall"):
		return "list size"
	case what == "" && q.has("cut", "cutting", "covered", "buried", "closed") && q.has("left", "havent", "haven't", "still", "needs", "not", "yet", "any"):
		return canon.Tail(unread.Works(l) || q.has("cut", "cutting", "covered", "buried"), "covered")
	case what == "":
		return ""
	case len(q.things) == 2 && q.has("apart", "between", "from", "distance", "to") && (q.has("how") || where || q.has("what", "whats", "what's")):
		return "apart " + what + ", " + q.things[1]
	case len(q.things) > 1:
		return ""
	case q.several && !q.named && q.has("covered", "behind", "buried", "hidden", "closed", "cut", "uncut"):
		return "covered"
	case q.several && !q.named, kind != "" && lex.Phrases.Whole(kind).Type == lex.Service:
		return "list " + several(kind)
	case !q.named && q.has("any", "anything", "there", "much", "many", "list", "show", "give", "have", "got"):
		return "list " + several(kind)
	case q.has("how", "which", "what", "whats", "what's", "read", "give", "tell", "show", "remind"),
		q.has("is", "are", "was", "were", "did", "has", "have", "do", "does") && (q.support != "" || q.has("cut", "covered", "buried", "open", "opened", "closed", "found", "noted", "note", "behind", "there", "clear", "centred", "centered")), l.Question && !q.has("is", "are", "was", "were", "does", "did", "do", "can"), where:
		return strings.TrimSpace("find " + what + " " + canon.Some("off", q.off))
	}
	return ""
}

func several(kind string) string {
	if kind == "" {
		return "everything"
	}
	return lex.Plural(kind)
}

// asksKeys are words of the rules that any question may contain.
var asksKeys = lex.Set("of", "at", "on", "off", "up", "to", "row", "ceiling", "between", "along", "in the middle", "oc", "on hand", "x", "even")
