package parse

import (
	"cmp"
	"errors"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
	"strapline/grammar/lex"
	"strapline/grammar/numbers"
	"strapline/grammar/pattern"
	"strapline/grammar/phrase"
	"strapline/grammar/read"
	"strapline/grammar/record"
	"strapline/grammar/relate"
	"strapline/grammar/rooms"
	"strapline/grammar/said"
	"strapline/grammar/sentences"
	"strapline/grammar/things"
	"strapline/grammar/topic"
	"strapline/grammar/unread"
	"strapline/grammar/wording"
)

// These limit the work for one line: its bytes, and how often other words for it or parts of it are read.
const longestLine, mostNested = 4096, 400

// deepest is how deep readings may lie in one another. Of 12,000 texted messages none needs more than eight.
const deepest = 16

// Line parses one entry. The error is an *Ask, a *Refusal or ErrChatter; even then the line says which
// room was named.
//
// A line in another language of the crew is read in English. Questions and refusals about it give the
// words and columns as typed.
func Line(text string, c *grammar.Context) (grammar.Line, error) {
	var names lex.Names
	if c != nil {
		names = lex.Names{Rooms: c.Rooms, Walls: c.Walls, Name: c.Name, MaxWords: c.MaxWords}
	}
	text, shifts := lex.Spanish.English(lex.Fold(text), names)
	line, err := parse(text, c, false)
	col, word := fault(err)
	if col == nil {
		return line, err
	}
	from, _ := topic.Said(text)
	*col += utf8.RuneCountInString(text[:from])
	if _, refused := err.(*grammar.Refusal); refused { // the text read may be longer than the one typed
		*col = min(*col, utf8.RuneCountInString(text)+1)
	}
	if shifts != nil {
		typed(shifts, col, word)
	}
	return line, err
}

// fault returns the column and the word that a question or a refusal is about, nil for any other error.
func fault(err error) (col *int, word *string) {
	switch e := err.(type) {
	case *grammar.Ask:
		return &e.Col, &e.Word
	case *grammar.Refusal:
		return &e.Col, &e.Word
	}
	return nil, nil
}

// typed maps a column and the word there back to what was typed.
func typed(shifts []lex.Shift, col *int, word *string) {
	at, said := lex.Source(shifts, *col)
	*col = at
	if said != "" && *word != "" {
		*word = said
	}
}

func parse(text string, c *grammar.Context, nested bool) (grammar.Line, error) {
	within := grammar.Context{}
	if c != nil {
		within = *c
	}
	left := mostNested
	within.Depth, within.Left = within.Depth+1, cmp.Or(within.Left, &left)
	if *within.Left--; within.Depth > deepest || *within.Left < 0 {
		return grammar.Line{}, grammar.ErrChatter
	}
	within.Units = cmp.Or(within.Units, length.Imperial)
	c = &within
	text = lex.Fold(strings.TrimRightFunc(text, unicode.IsSpace))
	if len(text) > longestLine {
		return grammar.Line{}, &grammar.Refusal{Col: longestLine + 1, Want: "a shorter line", Hint: read.Words.Rows["find"].Example}
	}
	switch said := strings.TrimSpace(text); {
	case c.Asked && record.Picked(said) > 0:
		return grammar.Line{Entry: record.Pick{N: record.Picked(said)}}, nil
	case said == "?":
		return grammar.Line{Entry: record.Help{}}, nil
	}
	typed := text
	if !nested {
		text = wording.Tidy(text)
		if m := holdOn.FindStringSubmatch(text); m != nil && read.AsksAtStart(m[1]) {
			text = m[1]
		}
		text = read.Asked(text)
		if first, _, _ := strings.Cut(lex.Lower(text), " "); read.AskingWords[first] {
			text = read.RoomsInFull(text, c.Rooms)
			if rest := read.ToldFirst(text); rest != "" {
				return toldFirst(text, rest, c)
			}
		}
	}
	text = wording.Signs(text)
	if m := heightTold.FindStringSubmatch(text); m != nil && !read.KeepsAll(text) {
		text = strings.TrimSuffix(text, m[0]) + m[1] + " high " + m[2]
	}
	if !read.KeepsAll(text) {
		text = withWalls.ReplaceAllString(text, "$1, $2 $3")
	}
	if m := confirming.FindStringSubmatch(text); m != nil {
		told := strings.TrimSuffix(text, m[0]) + m[1]
		if !nested {
			if line, err, ok := confirmed(told, c); ok {
				return line, err
			}
		}
		text = told + "?"
	}
	if !nested {
		if !read.KeepsAll(text) {
			text = c.ByNumber(text, false)
		}
		if line, err, ok := slipped(text, c); ok {
			return line, err
		}
		head, rest := relate.RoomBefore(text, c)
		right, ask := wording.Chosen(c, rest), (*grammar.Ask)(nil)
		if right == "" {
			right, ask = relate.Fated(c, rest)
		}
		if right == "" && ask == nil {
			right, ask = relate.Righted(c, rest)
		}
		if ask != nil {
			readChoices(ask, c)
			return grammar.Line{}, ask
		}
		if right != "" {
			text = head + right
		}
		text = relate.Reword(text, c)
	}
	text, by, err := relate.Relative(text, c)
	if by != nil {
		return grammar.Line{Entry: by}, nil
	}
	if ask, ok := err.(*grammar.Ask); ok && !nested {
		readChoices(ask, c)
	}
	if err != nil {
		return grammar.Line{}, err
	}
	l := read.CutLine(text, c)
	e, err := entry(l)
	if th, ok := e.(things.Thing); ok && err == nil && doubts(l, e) && len(th.Fixes) > 1 && !read.AsksAtStart(text) { // "light 26 off west 41 off north?"
		return l.Line, noteOrLook(l.Line, th)
	}
	if err == nil && doubts(l, e) {
		r := l.Refuse(l.Tokens[0].Pos, unread.NoDoubt)
		l.Entry = e
		r.Hint = l.Line.String()
		err = r
	}
	if err == nil && l.Mistimed > 0 {
		p := l.Pieces[l.Mistimed-1]
		err = &grammar.Refusal{Col: p.Col, Word: strings.Fields(l.Text[p.Start:])[0], Want: "a time like 9:58 or 3:15 pm",
			Hint: grammar.Line{Room: l.Room, Before: l.Before, After: l.After, Entry: e}.String()}
	}
	if err == nil && l.Unknown != "" {
		err = l.NoRoom(0, l.Unknown)
	}
	if err == nil && l.Room2 != "" {
		err = l.Refuse(l.Tokens[0].Pos, "one room: "+l.Room+" or "+l.Room2)
	}
	if err != nil && nested { // in our own words: nobody typed it
		return l.Line, err
	}
	if err != nil {
		u := newUnread(l)
		if got, serr, ok := u.sifted(true); ok {
			return got, serr
		}
		if got, rerr, ok := u.respelt(nil); ok {
			return got, rerr
		}
		if asked := said.Asked(l); asked != "" {
			if got, aerr := l.Again(asked); aerr == nil {
				return got, nil
			}
		}
		if got, herr := u.heard(err); herr == nil {
			return got, nil
		} else if herr != err {
			err = herr
		} else {
			_, about := recognise(l)
			err = unread.Judge(l, err, about)
		}
		if got, rerr, ok := u.respelt(err); ok {
			return got, rerr
		}
		got, serr := l.Line, err
		if as, ok := errors.AsType[*unread.Keeps](err); !ok || !as.Sure {
			got, serr = u.sensed(err)
		}
		if serr == nil {
			return got, nil
		}
		if got, rerr, ok := u.sifted(false); ok {
			return got, rerr
		}
		err = unread.Unanswered(l, u.heart(u.lacking(serr), c))
		if r, ok := errors.AsType[*grammar.Refusal](err); ok {
			_, rights := relate.Slots(c, typed)
			r.Keep = unread.LosesFact(l, r) || rights && !r.Plain
		}
	}
	if as, ok := errors.AsType[*unread.Keeps](err); ok {
		e, err = inOwnWords(as.Entry, l.Text, typed, c), nil
		l.Before, l.After = 0, 0 // its words still say so
	}
	if err != nil {
		if ask, ok := err.(*grammar.Ask); ok {
			readChoices(ask, c)
			notesInOwnWords(ask, l.Text, typed, c)
		}
		return l.Line, err
	}
	if in, ok := e.(rooms.InRoom); ok && in.Name == l.Room {
		l.Room = "" // "in in den den"
	}
	l.Line.Entry = e
	return l.Line, nil
}

// toldFirst reads a line that begins with its verb without it, and asks whether that was meant: it may be a question.
func toldFirst(text, rest string, c *grammar.Context) (grammar.Line, error) {
	line, err := parse(rest, c, false)
	if _, asks := errors.AsType[*grammar.Ask](err); asks {
		return line, err
	}
	l := read.CutLine(text, c)
	if row := read.Words.Rows[kindOf(line, err)]; row != nil && !row.Asks && !row.Text {
		return l.Line, orNote(l, meant(l, line.String(), line))
	}
	l.Line.Entry = record.Note{Text: unread.NoteText(text), Kept: true}
	return l.Line, nil
}

// confirmed reads a thing and its place when the line ends by asking whether it may be there: "light 26 off west 41 off
// north ok?". ok is false if it tells of none, or asks from its start.
func confirmed(text string, c *grammar.Context) (line grammar.Line, err error, ok bool) {
	if first, _, _ := strings.Cut(lex.Lower(text), " "); read.AskingWords[first] {
		return line, nil, false
	}
	line, err = parse(text, c, false)
	th, is := line.Entry.(things.Thing)
	if ask, asks := errors.AsType[*grammar.Ask](err); asks && len(ask.Choices) > 0 {
		return line, ask, len(ask.Choices[0].Lines) > 0 && telling(ask.Choices[0].Lines[0])
	}
	if err != nil || !is || len(th.Fixes) < 2 {
		return line, nil, false
	}
	return line, noteOrLook(line, th), true
}

// noteOrLook asks whether a thing is to be noted where it is said to be, or what is there already.
func noteOrLook(line grammar.Line, th things.Thing) *grammar.Ask {
	look := line
	line.Entry, look.Entry = th, hanging.Reach{Surface: th.Surface, Fixes: th.Fixes}
	return &grammar.Ask{Why: "note it there, or only look what is there?", Choices: []grammar.Choice{
		{Label: "note " + th.String(), Lines: []grammar.Line{line}}, {Label: "look", Lines: []grammar.Line{look}}}}
}

// heightTold matches the height behind the sides of a room: "8' x 5', h 96".
var heightTold = pattern.Compile(`(?i)(x ?\d[\d '"/m-]*?),? h(?:t|gt)? ?(\d[\d '"/m-]*)$`)

// withWalls matches the height behind the sides of a room: "13'6 x 11 with 8 ft walls".
var withWalls = pattern.Compile(`(?i)((?:x|by) ?\d[\d '"/m-]*?),? (?:with|w|and) (?:an? )?(\d[\d '"/m-]*?(?: ?ft| ?foot)?) (?:high )?(walls|ceilings?|lid)\b`)

// holdOn matches what announces a correction, and a question too.
var holdOn = pattern.Compile(`^h(?:old|ang) (?:on|up),? (.*)$`)

// confirming matches a measure and words behind it that ask whether it may be so.
var confirming = pattern.Compile(`(\d.*\b(?:(?:north|east|south|west)(?: wall| side)?|up|high|hi|floor)),? (?:is |are )?(?:that |it )?(?:ok|okay|good|right|alright|yeah|yes|no|all right|fine)\?+$`)

// slipped reads a line with a slip that is put right in it. ok is false if there is none.
func slipped(text string, c *grammar.Context) (line grammar.Line, err error, ok bool) {
	if read.KeepsAll(text) || strings.HasSuffix(text, "?") {
		return line, nil, false
	}
	var choices []grammar.Choice
	for _, meant := range relate.Mended(c, text) {
		got, gerr := read.Anew(meant, c)
		var more []grammar.Choice
		if ask, asks := errors.AsType[*grammar.Ask](gerr); asks {
			more = ask.Choices
		} else if gerr == nil {
			more = []grammar.Choice{{Label: got.String(), Lines: []grammar.Line{got}}}
		}
		if sentences.Stands(got, gerr) && !got.Loose && !slices.ContainsFunc(choices, func(c grammar.Choice) bool { return len(more) > 0 && c.String() == more[0].String() }) {
			line, err, choices = got, gerr, append(choices, more...)
			ok = ok || gerr != nil && len(more) == 0
		}
	}
	if ok || len(choices) < 2 {
		return line, err, ok || len(choices) == 1
	}
	return grammar.Line{}, &grammar.Ask{Col: 1, Word: strings.Fields(text)[0], Why: "which one?", Choices: choices, Keep: true}, true
}

// readChoices reads the texts of a question's choices into lines, if they have one reading.
func readChoices(a *grammar.Ask, c *grammar.Context) {
	for i, ch := range a.Choices {
		if line, err := read.Nested(ch.Text, c); err == nil {
			a.Choices[i] = grammar.Choice{Label: ch.Label, Lines: []grammar.Line{line}}
		}
	}
}

// entry parses the line by its rule and checks the result.
func entry(l *read.Source) (grammar.Entry, error) {
	if l.Tokens[0].EOF() {
		if l.Room == "" || l.At != "" { // "kitchen at 3pm" is no note
			return nil, grammar.ErrChatter
		}
		room := l.Room
		l.Room = ""
		return rooms.InRoom{Name: room}, nil
	}
	if e := phrase.Read(l); e != nil {
		return e, nil
	}
	rule, _ := recognise(l)
	produce := rules[rule]
	if produce == nil {
		return nil, grammar.ErrChatter
	}
	in, err := l.Stream()
	if err != nil {
		return nil, err
	}
	s, err := produce(in)
	if err != nil {
		return nil, err
	}
	e, err := s.Entry(l)
	if l.Wrong != nil {
		return nil, l.Wrong
	}
	if err != nil {
		return nil, err
	}
	if k := read.Words.Rows[e.Kind()]; k != nil && !k.Asks && !k.Text {
		err = numbers.Leftover(l)
	}
	return e, err
}

// recognise returns the rule that reads the line, and the row of the table to blame if that fails: none if
// such words are ordinary talk too.
func recognise(l *read.Source) (rule string, about grammar.Kind) {
	t, next := l.Tokens[0], l.Tokens[min(1, len(l.Tokens)-1)]
	word := t.Type == lex.Word || t.Type == lex.Service || t.Type == lex.Name
	switch {
	case l.Cmd != nil && t.Value == "any" && next.Type == lex.Number: // "any 12s left"
		return "left", "any"
	case l.Cmd != nil && t.Value == "find" && next.Type == lex.Name && boards.PieceNext(l, l.PieceAt(next.Pos.Offset)):
		return "piece", "find"
	case l.Cmd != nil:
		return t.Value, l.Cmd.Kind
	case t.Type == lex.Thing:
		return "thing", "thing"
	case t.Type == lex.Support && next.Type == lex.Number:
		return "support", "support"
	case t.Type == lex.Support:
		return "support", "supports"
	case (t.Type == lex.Wall || t.Type == lex.Room) && next.Type == lex.Word && (next.Value == "is" || next.Value == "aka"):
		return "alias", "alias"
	case t.Type == lex.Wall:
		return "surface", "boarded"
	case t.Value == "ceiling", t.Type == lex.Face, t.Type == lex.Key && strings.HasPrefix(t.Value, "bulkhead "):
		return "surface", "up"
	case t.Value == "row" && !boards.AsksPiece(l):
		return "row", "hung"
	case (t.Value == "not" || t.Value == "*") && next.Type != lex.Number:
		return "swap", ""
	case t.Value == "not", t.Value == "*", t.Type == lex.Number && l.Has(lex.Key, "not"):
		return "swap", "swap"
	case (t.Type == lex.Number || word) && leads(l):
		return "thing", ""
	case t.Type == lex.Service, t.Type == lex.Number && things.SizedRun(l):
		if l.Measure() || l.Has(lex.Name, "") || l.Has(lex.Key, "row") {
			about = "run"
		}
		return "run", about
	case t.Value == "row", t.Type == lex.Name && boards.AsksPiece(l):
		return "piece", ""
	case t.Type == lex.Name && lex.IsPiece(t.Value) && (l.Has(lex.Key, "up") || l.Has(lex.Word, "hung") || l.Has(lex.Word, "went")):
		return "pieces", "hung"
	case t.Type == lex.Name && next.Value == "plated":
		return "plate", "plate"
	}
	if t.Type == lex.Number || t.Type == lex.Word {
		rule = boards.Counts(l)
	}
	if t.Type == lex.Number && rule == "" && l.Asked {
		rule = "bare"
	}
	return rule, ""
}

// doubts reports whether the line is a question although its entry is not: "is the light 26 off west?"
// notes nothing.
func doubts(l *read.Source, e grammar.Entry) bool {
	if k := read.Words.Rows[e.Kind()]; k != nil && k.Asks {
		pick, ok := e.(boards.Layout)
		return l.Question && ok && pick.Pick > 0
	}
	return l.Question || l.Opens("is", "are", "was", "does", "did")
}

// leads reports whether words or a size precede a thing that is followed by a distance: "sink light 26 off
// west", `6" light 26 off west`.
func leads(l *read.Source) bool {
	i, count := 0, 0
	for ; l.Tokens[i].Type != lex.Thing; i++ {
		switch t := l.Tokens[i]; t.Type {
		case lex.Word, lex.Service, lex.Name:
			if count++; count > 2 || read.Talk[t.Value] {
				return false
			}
		case lex.Number, lex.Punct:
			if count > 0 {
				return false
			}
		case lex.Key:
			if t.Value != "x" {
				return false
			}
		default:
			return false
		}
	}
	return read.Measured(l.Tokens[i:]) || i > 0 && slices.ContainsFunc(l.Tokens, func(t lexer.Token) bool { return t.Value == "even" || t.Value == "in the middle" })
}
