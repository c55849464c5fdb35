package unread

import (
	"maps"
	"regexp"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
	"strapline/grammar/lex"
	"strapline/grammar/places"
	"strapline/grammar/read"
	"strapline/grammar/record"
	"strapline/grammar/topic"
)

// hint fills in the nearest known word and a line that parses. It reports whether that is the line itself,
// spelt correctly.
func hint(l *read.Source, r *grammar.Refusal, row *read.Row) bool {
	r.Hint = read.Words.Rows["thing"].Say(l.Units)
	kept := false
	defer func() {
		if kept && r.Near == "" {
			r.Want += `, or "note" before it`
		}
	}()
	switch {
	case row != nil && l.Cmd == nil && (row.Kind == "alias" || row.Kind == "boarded") && l.Measure():
		kept = true
		r.Hint = grammar.Line{Room: l.Room, Entry: record.Note{Text: strings.TrimSpace(l.Text[l.Pieces[l.Begin].Start:])}}.String()
	case row != nil && asPieces(l) != "":
		r.Hint = asPieces(l)
	case row != nil:
		r.Hint = example(l, row)
	case l.Has(lex.Service, "") && l.Measure():
		r.Hint = read.Words.Rows["run"].Say(l.Units)
	case asPieces(l) != "":
		r.Hint = asPieces(l)
	case l.Tokens[0].Type == lex.Name:
		if fix := l.Attempt("fix " + l.Text); fix != "" {
			r.Want, r.Hint = `"fix" before it, when it is noted already`, fix
		}
	case l.Tokens[0].Type == lex.Number && !l.Has(lex.Thing, ""):
		if light := l.Attempt("light "+l.Text, "light "+l.With(places.Offs(l)...)); light != "" {
			r.Want, r.Hint = "what is there", light
		}
	}
	if own := mended(l, r); own != "" {
		r.Hint = own
		return false
	}
	i := slices.IndexFunc(l.Pieces, func(p lex.Piece) bool { return p.Col == r.Col && !p.Gone })
	if i < 0 || !l.Pieces[i].Word() {
		return false
	}
	var spelt string
	if r.Near, spelt = corrected(l, i); spelt != "" {
		r.Hint = spelt
	}
	if l.Walls[r.Near] != "" {
		r.Near += " wall"
	}
	return spelt != ""
}

// asPieces returns the line for a row of which the sizes were given without saying that they are up: "row 3:
// 96 + 41 3/4"; "" for any other line.
func asPieces(l *read.Source) string {
	if !ofRow(l) {
		return ""
	}
	got, err := read.Nested(l.With(read.Edit{From: l.Pieces[l.Begin].Start, To: l.Pieces[l.Begin].Start, Text: "hung "}), l.Context)
	if e, ok := got.Entry.(hanging.Hung); err != nil || !ok || e.Pieces == nil {
		return ""
	}
	return got.String()
}

// corrected finds the known word nearest to piece i and, if the line parses with it, that line.
func corrected(l *read.Source, i int) (near, fixed string) {
	p := l.Pieces[i]
	if len(p.Low) < 3 || lex.Phrases[p.Low] != nil || read.HeadWord(p.Low) || read.Talk[p.Low] || topic.Work[p.Low] {
		return "", ""
	}
	known := slices.Concat(read.Words.Vocab, slices.Sorted(maps.Keys(l.Walls)), l.RoomNames())
	for range 4 { // the nearest with which the line parses, else just the nearest
		next := grammar.Nearest(p.Low, known)
		if next == "" || next == p.Low {
			break
		}
		if len(p.Low) > 4 || next[0] == p.Low[0] { // "luck" is not a puck
			if near == "" {
				near = next
			}
			if fixed := l.Attempt(l.With(read.Edit{From: p.Start, To: p.End, Text: next})); fixed != "" {
				return next, fixed
			}
		}
		known = slices.DeleteFunc(slices.Clone(known), func(w string) bool { return w == next })
	}
	return near, ""
}

// example returns an example for a line that begins like the row's. If the sender gave numbers, it is one
// that shows every part, or help, so that the numbers of the example are not noted in place of theirs.
func example(l *read.Source, row *read.Row) string {
	if verb := boards.StockVerb(l); verb != "" { // "stock" would lose the count
		if l.Measure() {
			return "help " + verb
		}
		return verb + " 2 " + strings.Join(strings.Fields(row.Say(l.Units))[2:4], " ")
	}
	if !l.Measure() && row.Kind != "set" {
		return row.Say(l.Units)
	}
	switch row.Kind {
	case "thing":
		return "help " + valueOf(l, lex.Thing, "light")
	case "run":
		return "help " + valueOf(l, lex.Service, "pipe")
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
	if !l.Measure() {
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
func valueOf(l *read.Source, typ lex.Type, none string) string {
	if i := slices.IndexFunc(l.Tokens, func(t lexer.Token) bool { return t.Type == typ }); i >= 0 {
		return l.Tokens[i].Value
	}
	return none
}

// mended returns the sender's own line with the missing small word added, "" if it still does not parse.
func mended(l *read.Source, r *grammar.Refusal) string {
	cuts := places.Offs(l)
	if r.Want == read.SidesFit && r.Word != "" {
		if i := slices.IndexFunc(l.Pieces, func(p lex.Piece) bool { return p.Col == r.Col }); i > 0 {
			cuts = []read.Edit{{From: l.Pieces[i].Start, To: l.Pieces[i].Start, Text: "x "}}
		}
	}
	if cuts == nil {
		return ""
	}
	return l.Attempt(l.With(cuts...))
}
