package sentences

import (
	"errors"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/read"
	"strapline/grammar/record"
	"strapline/grammar/rooms"
)

// A statement and a question in one message are told apart: the one is kept, the other is answered.

// asksBehind reports whether a text that reading as a question begins with something else, which may be a
// statement.
func asksBehind(line grammar.Line, err error, text string) bool {
	return err == nil && isQuestion(line.Entry) && !read.AsksAtStart(text)
}

// asksSame reports whether a text by itself asks for the same as the whole, of less.
func asksSame(line grammar.Line, text string, reading Reader) bool {
	less, err := reading(text)
	return err == nil && less.Entry.Kind() == line.Entry.Kind() && line.Entry.Kind() != "notes" && len(less.Entry.String()) < len(line.Entry.String())
}

// toldBehind reports whether something is told behind a question.
func toldBehind(ends []brk, reading Reader) bool {
	return slices.ContainsFunc(ends, func(e brk) bool { // "whats left. light 26 off west 41 off north"
		return (strings.HasSuffix(e.part, "?") || e.sentence && asksAlone(e.part, reading)) && tellsAlone(sentence(e.rest), reading)
	})
}

// What a question begins with behind what it is about: of somebody or something, or by itself.
const (
	asksOf  = "am is are was does do did will would can could should may"
	asksFor = "any anything anybody how what whats what's where wheres where's which who when hows"
)

// behind matches such a word, and a sign or only a space before it.
var behind = regexp.MustCompile(`(?i)(\s*[,;.:]\s+|\s+[-–—]+\s*|\s+)(?:(?:and|so|but|also|then|pls|please) )?(?:(?:` + either(asksOf) +
	`) (?:that|it|this|they|those|these|there|we|i|you|the|an?|any|screws?)\b|(?:` + either(asksFor) + `) )`)

func either(words string) string { return strings.ReplaceAll(words, " ", "|") }

// asksHere are these words: without one [behind] is not tried.
var asksHere = lex.Set(strings.Fields(asksOf + " " + asksFor)...)

// beside reports whether a character stands beside words and not in them.
func beside(r rune) bool { return r < 'a' && r != '\'' || r > unicode.MaxLatin1 }

// tellsOf matches the beginning of a statement about something: "boards are 12 and 10".
var tellsOf = regexp.MustCompile(`(?i)^\w+ (?:is|are|was|were|came|went) `)

// toldThenAsked returns a statement and the question behind it. Without a sign between them the statement gives a
// measure, and the question is about that: "light 50 off west 80 off north will that hit a strap".
func toldThenAsked(text string, reading Reader) (told, asked string) {
	low := lex.Lower(text)
	if !slices.ContainsFunc(strings.FieldsFunc(low, beside), func(w string) bool { return asksHere[w] }) {
		return "", ""
	}
	begins, _, _ := strings.Cut(low, " ")
	if row := read.Words.Rows[read.HeadOf(begins)]; read.AsksAtStart(text) && (row == nil && (read.AskingWords[begins] || !tellsOf.MatchString(text)) || row != nil && row.Asks) || len(text) > longestTold { // "cut the fan out, anything left"
		return "", ""
	}
	for _, m := range behind.FindAllStringSubmatchIndex(text, mostBreaks) {
		before, after := strings.TrimSpace(text[:m[0]]), strings.TrimSpace(strings.TrimLeft(text[m[2]:], " ,;.:-–—"))
		bare := strings.TrimSpace(text[m[2]:m[3]]) == ""
		if before == "" || bare && !strings.ContainsAny(before, "0123456789") || !asksAlone(sentence(after), reading) {
			continue
		}
		line, err := reading(before)
		ask, asks := errors.AsType[*grammar.Ask](err)
		_, refused := errors.AsType[*grammar.Refusal](err)
		note, _ := line.Entry.(record.Note)
		q, _ := reading(sentence(after))
		keeps := note.Kept && (!bare || strings.HasPrefix(after, "who ")) && strings.ContainsAny(before, "0123456789") && !ofIt(q.Entry)
		if isTold := err == nil && !isQuestion(line.Entry) && !note.Kept || keeps || asks && !bare && len(ask.Choices) > 0 || refused && !bare && strings.ContainsAny(before, "0123456789"); !isTold {
			continue
		}
		if _, enters := line.Entry.(rooms.InRoom); enters {
			continue
		}
		if line.Room != "" && q.Room == "" && asksAlone(line.Room+": "+sentence(after), reading) { // it is about the same room
			after = line.Room + ": " + after
		}
		return before, after
	}
	return "", ""
}

// ofIt reports whether a question is about what was told last.
func ofIt(e grammar.Entry) bool {
	switch e := e.(type) {
	case record.Find:
		return e.Name == record.It
	case record.Clear:
		return e.Of == record.It
	case record.Reachable:
		return e.Of == record.It
	}
	return false
}

// isQuestion reports whether an entry only asks.
func isQuestion(e grammar.Entry) bool {
	k := read.Words.Rows[e.Kind()]
	return k != nil && k.Asks && (!k.Text || k.Kind == "notes")
}

// asksMore reports whether a text that reads as a question has another one behind it.
func asksMore(line grammar.Line, err error, ends []brk, reading Reader) bool {
	if err != nil || !isQuestion(line.Entry) {
		return false
	}
	return slices.ContainsFunc(ends, func(e brk) bool {
		next := sentence(e.rest)
		return e.sentence && read.AsksAtStart(next) && asksAlone(next, reading)
	})
}

// asksAlone reports whether a text by itself is a question that says what it is about.
func asksAlone(text string, reading Reader) bool {
	line, err := reading(text)
	notes, searches := line.Entry.(record.Notes)
	return err == nil && isQuestion(line.Entry) && (!searches || notes.Subject())
}

// askedApart returns the first part of a text that is a statement before a question, or a question before
// something else, and what follows it.
func askedApart(ends []brk, reading Reader) (first, rest string) {
	asks := func(s string) bool { return asksAlone(s, reading) }
	for _, e := range ends {
		before, next := e.part, sentence(e.rest)
		said, _ := reading(before)
		looks := read.AsksAtStart(before) || strings.HasSuffix(before, "?")
		switch asked := looks && asks(before); {
		case asked && e.sentence && !read.AsksAtStart(before), asked && read.AsksAtStart(next) && read.Requested[said.Entry.Kind()]:
			return before, e.rest
		case !e.sentence && (asked || !e.anew || !read.AsksAtStart(next) || !done(before) && !tellsAlone(before, reading)):
		case asked && asks(next) && read.AsksAtStart(next), !asked && asks(next) && read.AsksAtStart(next), e.sentence && looks && !read.AsksAtStart(next) && tellsAlone(next, reading):
			if !asked && done(before) && silent(before, reading) { // beside a question it is no talk
				before = "note " + before
			}
			return before, e.rest
		}
	}
	return "", ""
}

// silent reports whether a text by itself is talk.
func silent(text string, reading Reader) bool {
	_, err := reading(text)
	return errors.Is(err, grammar.ErrChatter)
}

// done reports whether a text begins with what was done.
func done(text string) bool {
	ps := lex.Pieces(text)
	return len(ps) > 1 && doneWords[ps[0].Low]
}

// tellsAlone reports whether a text by itself is noted, kept or asked about.
func tellsAlone(text string, reading Reader) bool {
	line, err := reading(text)
	if err == nil {
		_, enters := line.Entry.(rooms.InRoom)
		return !enters && !isQuestion(line.Entry)
	}
	_, ask := errors.AsType[*grammar.Ask](err)
	return ask
}

// doneWords begin a statement about what was done.
var doneWords = lex.Set(strings.Fields(`capped cut hung moved fixed ran put pulled got done passed swapped finished used took left added found hit boarded strapped screwed taped
	opened closed covered insulated notched drilled tested installed dropped brought delivered marked nailed ripped replaced shimmed spaced`)...)

// longestTold limits the work for one message, in bytes.
const longestTold = 200
