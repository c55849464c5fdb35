package grammar

import (
	"errors"
	"regexp"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/grammar/lex"
)

// gist asks whether a line of a thing among more words means the thing at the distances
// that are said of it; nil where it has more than one thing, a number that is neither
// its size nor a distance, or words that may turn it round. Where one word is lost it has no Why.
func (l *line) gist() *Ask {
	if l.nested || l.asksSomething() || len(l.Pieces) > 40 {
		return nil
	}
	what, size, on, label, lead := "", "", "", "", ""
	var at []string
	stray, opening := 0, false // words that are lost; a door or a window
	for i := 0; i < len(l.Tokens)-1; i++ {
		t, next := l.Tokens[i], l.Tokens[i+1]
		switch {
		case turned[t.Value], t.Type == lex.Name, t.Type == lex.Support, t.Type == lex.Service, t.Value == "row", t.Value == "along", t.Value == "between":
			return nil
		case next.Type == lex.Thing && lex.ThingOf[lex.Lower(l.wordAt(t.Pos.Offset))] != "": // "pendant box"
			lead = lex.Lower(l.wordAt(t.Pos.Offset))
		case what == "" && (t.Value == "door" && t.Type == lex.Cmd || t.Type == lex.Word && openings[t.Value] != ""):
			what, opening = openings[lex.Lower(l.wordAt(t.Pos.Offset))], true
			if what == "" {
				what = "door"
			}
		case t.Type == lex.Thing && what == "":
			what = t.Value
			if label+lead == "" && i > 0 && l.Tokens[i-1].Type == lex.Word && leadWord(l.Tokens[i-1].Value) {
				label = lex.Lower(l.wordAt(l.Tokens[i-1].Pos.Offset))
			}
		case t.Type == lex.Thing && what != t.Value:
			return nil
		case t.Type == lex.Wall && i > 0 && l.Tokens[i-1].Value == "off": // its distance stood before
		case t.Type == lex.Wall && (i == 0 || slices.Contains([]string{"on", "out", "in"}, l.wordBefore(t)) || l.saidWall(t.Pos.Offset)):
			if on != "" && on != t.Value {
				return nil
			}
			on = t.Value
		case t.Value == "over" && next.Type == lex.Word:
			label = strings.TrimSpace(label + " over " + next.Value)
		case t.Value == "in the middle":
			at = append(at, t.Value)
		case t.Type == lex.Wall && lex.Lower(l.wordAt(t.Pos.Offset)) != t.Value: // the sink, where a wall is called so
			stray++
		case t.Type == lex.Wall:
			return nil
		case t.Type == lex.Word && talk[t.Value] && !littleTalk[t.Value]:
			return nil
		case t.Type == lex.Word && (placing[t.Value] || counting[t.Value]) && next.Type == lex.Number, t.Type == lex.Punct && quotes(t.Value):
			return nil
		case t.Type == lex.Word:
			stray++
		case t.Type == lex.Number:
			_, n, _ := length.Scan(l.Read[t.Pos.Offset:], l.Units, length.One)
			said := strings.TrimSpace(l.Read[t.Pos.Offset : t.Pos.Offset+n])
			for !l.Tokens[i+1].EOF() && l.Tokens[i+1].Pos.Offset < t.Pos.Offset+n {
				i++
			}
			rest := l.Tokens[i+1:]
			switch {
			case n == 0:
				return nil
			case said == "one":
			case rest[0].Value == "off" && (rest[1].Type == lex.Wall || rest[1].Value == "floor"):
				at = append(at, said+" off "+rest[1].Value)
			case rest[0].Value == "up":
				at = append(at, said+" up")
			case rest[0].Value == "x" && rest[1].Type == lex.Number && size == "" && len(at) == 0:
				size = l.sizeAt(t.Pos.Offset)
				for !l.Tokens[i+1].EOF() && l.Tokens[i+1].Pos.Offset < t.Pos.Offset+len(size) {
					i++
				}
			case opening && i > 0 && l.Tokens[i-1].Value == "sill", opening && i > 1 && l.Tokens[i-2].Value == "sill":
				at = append(at, said+" up")
			case opening && size == "": // what it is sold as
			case size == "" && (rest[0].Type == lex.Thing || len(at) == 0 && what != "" && unitSaid.MatchString(said)):
				size = said
			default:
				return nil
			}
		}
	}
	if what == "" || len(at) == 0 || stray == 0 || stray == 1 && len(at) < 2 || l.has(lex.Place, "left") || l.has(lex.Place, "right") || on != "" && len(at) < 2 && !opening {
		return nil
	}
	if i := slices.Index(at, "in the middle"); i >= 0 && len(at) > 1 { // more or less: the distances count
		at = slices.Delete(at, i, i+1)
	}
	if on != "" {
		at = append(at, "on "+on+" wall")
	}
	if label == "" {
		what = strings.TrimSpace(lead + " " + what)
	}
	text := say(strings.TrimSpace(what+" "+label), clause{size}, clause{strings.Join(at, ", ")})
	got, err := l.again(text)
	if inner, ok := errors.AsType[*Ask](err); ok {
		return l.choices(inner)
	}
	th, ok := got.Entry.(Thing)
	if o, is := got.Entry.(Opening); is {
		th, ok = o.Thing, true
	}
	if err != nil || !ok || len(th.Fixes) > 3 {
		return nil
	}
	ask := l.asks("is it that?")
	ask.Choices, ask.Keep = []Choice{reads(text, got.String())}, true
	if stray < 2 {
		ask.Why = ""
	}
	return ask
}

var unitSaid = regexp.MustCompile(`\d ?(?:"|”|″|in\b|inch|mm|cm)`)

func quotes(s string) bool { return strings.ContainsAny(s, "\"'") }

// sizeAt is the "4x10" at a byte of the line.
func (l *line) sizeAt(at int) string {
	rest := l.Read[at:]
	a, n, _ := length.Scan(rest, l.Units, length.List)
	i := n + strings.IndexAny(rest[n:], "x×b")
	k := i + 1
	for k < len(rest) && strings.ContainsRune(" xy×", rune(rest[k])) {
		k++
	}
	b, m, _ := length.Scan(rest[k:], l.Units, length.List)
	if len(a) == 0 || len(b) == 0 {
		return ""
	}
	return rest[:k+m]
}

// wordBefore is the word before a token, in lower case.
func (l *line) wordBefore(t lexer.Token) string {
	for i := l.pieceAt(t.Pos.Offset) - 1; i >= 0; i-- {
		if w := l.Pieces[i].Low; w != "the" {
			return w
		}
	}
	return ""
}

// turned are words that turn a line round: what it says is not where the thing is.
var turned = lex.Set("not", "wrong", "no", "moved", "move", "moving", "should", "was", "instead", "missed", "except", "each", "every", "both", "near", "from", "or", "needs", "need", "gap", "less", "minus", "take", "remove", "pull", "pulled", "kill", "cap", "capped", "lose", "gone", "dead", "abandoned", "cancel", "swap", "replace", "relocate", "delete", "used")

// littleTalk are words of talk that change nothing in such a line.
var littleTalk = lex.Set("there", "theres", "there's", "we", "i", "our", "it", "its", "this", "that", "here", "just", "put", "so", "ok", "yes", "yeah", "need", "have", "got", "go", "goes", "new", "another", "also", "into", "didnt", "didn't", "measure", "other", "way", "if")

// leadWord reports whether a word before a thing tells it from others.
func leadWord(w string) bool {
	return len(w) > 2 && !talk[w] && !lex.Filler[w] && !turned[w] && !lex.Numeral(w)
}
