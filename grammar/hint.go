package grammar

import (
	"maps"
	"regexp"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/grammar/lex"
)

// hint fills in the nearest known word and a line that parses. It reports whether that is the line itself,
// spelt correctly.
func (l *line) hint(r *Refusal, row *kind) bool {
	r.Hint = words.rows["thing"].Say(l.Units)
	kept := false
	defer func() {
		if kept && r.Near == "" {
			r.Want += `, or "note" before it`
		}
	}()
	switch {
	case row != nil && l.cmd == nil && (row.Kind == "alias" || row.Kind == "boarded") && l.measure():
		kept = true
		r.Hint = Line{Room: l.Room, Entry: Note{Text: strings.TrimSpace(l.Text[l.Pieces[l.begin].Start:])}}.String()
	case row != nil && l.asPieces() != "":
		r.Hint = l.asPieces()
	case row != nil:
		r.Hint = l.example(row)
	case l.has(lex.Service, "") && l.measure():
		r.Hint = words.rows["run"].Say(l.Units)
	case l.asPieces() != "":
		r.Hint = l.asPieces()
	case l.Tokens[0].Type == lex.Name:
		if fix := l.attempt("fix " + l.Text); fix != "" {
			r.Want, r.Hint = `"fix" before it, when it is noted already`, fix
		}
	case l.Tokens[0].Type == lex.Number && !l.has(lex.Thing, ""):
		if light := l.attempt("light "+l.Text, "light "+l.with(l.offs()...)); light != "" {
			r.Want, r.Hint = "what is there", light
		}
	}
	if own := l.mended(r); own != "" {
		r.Hint = own
		return false
	}
	i := slices.IndexFunc(l.Pieces, func(p lex.Piece) bool { return p.Col == r.Col && !p.Gone })
	if i < 0 || !l.Pieces[i].Word() {
		return false
	}
	var spelt string
	if r.Near, spelt = l.corrected(i); spelt != "" {
		r.Hint = spelt
	}
	if l.Walls[r.Near] != "" {
		r.Near += " wall"
	}
	return spelt != ""
}

// pieces returns the line for a row of which the sizes were given without saying that they are up: "row 3:
// 96 + 41 3/4"; "" for any other line.
func (l *line) asPieces() string {
	if t := l.Tokens[0]; l.cmd != nil || t.Value != "row" && !(t.Type == lex.Name && lex.IsPiece(t.Value)) {
		return ""
	}
	got, err := nested(l.with(cut{l.Pieces[l.begin].Start, l.Pieces[l.begin].Start, "hung "}), l.Context)
	if e, ok := got.Entry.(Hung); err != nil || !ok || e.Pieces == nil {
		return ""
	}
	return got.String()
}

// attempt returns the first of the texts that can be read, in canonical form; "" if none can.
func (l *line) attempt(texts ...string) string {
	for _, text := range texts {
		if got, err := nested(text, l.Context); err == nil {
			return got.String()
		}
	}
	return ""
}

// hinted ensures that the hint parses.
func (l *line) hinted(r *Refusal) *Refusal {
	if l.attempt(r.Hint) == "" {
		r.Hint = words.rows["thing"].Say(l.Units)
	}
	return r
}

// corrected finds the known word nearest to piece i and, if the line parses with it, that line.
func (l *line) corrected(i int) (near, fixed string) {
	p := l.Pieces[i]
	if len(p.Low) < 3 || lex.Phrases[p.Low] != nil || headWord(p.Low) || talk[p.Low] || workWords[p.Low] {
		return "", ""
	}
	known := slices.Concat(words.vocab, slices.Sorted(maps.Keys(l.Walls)), l.roomNames())
	for range 4 { // the nearest with which the line parses, else just the nearest
		next := Nearest(p.Low, known)
		if next == "" || next == p.Low {
			break
		}
		if len(p.Low) > 4 || next[0] == p.Low[0] { // "luck" is not a puck
			if near == "" {
				near = next
			}
			if fixed := l.attempt(l.with(cut{p.Start, p.End, next})); fixed != "" {
				return next, fixed
			}
		}
		known = slices.DeleteFunc(slices.Clone(known), func(w string) bool { return w == next })
	}
	return near, ""
}

// example returns an example for a line that begins like the row's. If the sender gave numbers, it is one
// that shows every part, or help, so that the numbers of the example are not noted in place of theirs.
func (l *line) example(row *kind) string {
	if verb := l.stockVerb(); verb != "" { // "stock" would lose the count
		if l.measure() {
			return "help " + verb
		}
		return verb + " 2 " + strings.Join(strings.Fields(row.Say(l.Units))[2:4], " ")
	}
	if !l.measure() && row.Kind != "set" {
		return row.Say(l.Units)
	}
	switch row.Kind {
	case "thing":
		return "help " + l.valueOf(lex.Thing, "light")
	case "run":
		return "help " + l.valueOf(lex.Service, "pipe")
	case "supports":
		return "help straps"
	case "support":
		return "help strap"
	case "set":
		for _, said := range quoted.FindAllString(row.Fits, -1) {
			if said = strings.Trim(said, `"`); said[:strings.IndexByte(said, ' ')] == l.Tokens[1].Value {
				return "set " + said
			}
		}
	}
	if !l.measure() {
		return row.Say(l.Units)
	}
	if len(row.Words) > 0 {
		return "help " + row.Words[0]
	}
	return "help " + string(row.Kind)
}

// quoted matches an example in a description of what fits.
var quoted = regexp.MustCompile(`"[a-z]+ [^"]+"`)

// valueOf returns the value of the first token of the type.
func (l *line) valueOf(typ lex.Type, none string) string {
	if i := slices.IndexFunc(l.Tokens, func(t lexer.Token) bool { return t.Type == typ }); i >= 0 {
		return l.Tokens[i].Value
	}
	return none
}

// mended returns the sender's own line with the missing small word added, "" if it still does not parse.
func (l *line) mended(r *Refusal) string {
	cuts := l.offs()
	if r.Want == sidesFit && r.Word != "" {
		if i := slices.IndexFunc(l.Pieces, func(p lex.Piece) bool { return p.Col == r.Col }); i > 0 {
			cuts = []cut{{l.Pieces[i].Start, l.Pieces[i].Start, "x "}}
		}
	}
	if cuts == nil {
		return ""
	}
	return l.attempt(l.with(cuts...))
}

// offs inserts "off" between a distance and its wall, and "of" between a direction and a support, if they
// are missing or misspelt.
func (l *line) offs() []cut {
	var cuts []cut
	for i, t := range l.Tokens {
		if i == 0 || t.EOF() || l.Tokens[i+1].Value == "of" {
			continue
		}
		before := l.Tokens[i-1]
		switch {
		case t.Type == lex.Wall && before.Value == "of" && (i < 2 || l.Tokens[i-2].Type != lex.Wall):
			cuts = append(cuts, cut{before.Pos.Offset, before.Pos.Offset + len("of"), "off"})
		case t.Type == lex.Wall && l.afterLength(t) && !l.saidWall(t.Pos.Offset) && l.Tokens[i+1].Type != lex.Support && l.Tokens[i+1].Type != lex.Name:
			cuts = append(cuts, cut{t.Pos.Offset, t.Pos.Offset, "off "})
		case (t.Type == lex.Support || t.Type == lex.Name) && before.Type == lex.Wall && l.afterLength(before):
			cuts = append(cuts, cut{t.Pos.Offset, t.Pos.Offset, "of "})
		}
	}
	return cuts
}

// afterLength reports whether a number ends right before a token.
func (l *line) afterLength(t lexer.Token) bool {
	i := l.pieceAt(t.Pos.Offset)
	return i > 0 && l.LengthBefore(i)
}
