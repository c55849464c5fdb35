package parse

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/grammar"
	"strapline/grammar/boarding"
	"strapline/grammar/lex"
	"strapline/grammar/pattern"
	"strapline/grammar/read"
	"strapline/grammar/record"
	"strapline/grammar/sense"
	"strapline/grammar/unread"
)

// manyBoards matches a count that is hardly one of anything but boards: "got 20 twelves", not "got a 10 minute break".
var manyBoards = regexp.MustCompile(`^stock (?:[5-9]|\d\d+) `)

// sensed reads a line that no rule reads by its words alone, if each has a part in what it means, and asks
// whether that was meant if not. It returns err if that cannot be told.
func sensed(l *read.Source, err error) (grammar.Line, error) {
	if l.AsksSomething() || l.Lost || l.Begin >= len(l.Pieces) || len(l.Pieces) > 60 {
		return l.Line, err
	}
	refusal, refused := errors.AsType[*grammar.Refusal](err)
	if _, ok := errors.AsType[*grammar.Ask](err); ok || refused && l.Wrong != nil {
		return l.Line, err
	}
	if got, gerr, ok := placed(l, err); ok {
		return got, gerr
	}
	guesses, again := guess(l)
	if got, ok := certain(guesses, again); ok {
		return got, nil
	}
	if refused && !unread.General(refusal) {
		return l.Line, err
	}
	ask := l.Asks("did you mean this?")
	if len(guesses) > 0 && guesses[0].Why != "" {
		ask = l.Asks(guesses[0].Why)
	}
	for _, g := range guesses {
		if g.Lost > mostLost && !tallies.MatchString(g.Text) {
			if as, ok := errors.AsType[*unread.Keeps](err); ok && plainThing(g.Text) { // too much of it is left for a question
				as.Offer(l.Attempt(g.Text))
			}
			continue
		}
		if strings.HasPrefix(g.Text, "snag ") && !unread.Tells(l) { // "he has a screw loose"
			continue
		}
		several := strings.Contains(g.Text, "\n")
		if refused && !several && len(l.Pieces)-l.Begin < 8 && !tallies.MatchString(g.Text) && (g.Lost > 0 || !strings.Contains(g.Text, "hung ")) { // in a short line, naming the wrong word helps more than a question
			return l.Line, err
		}
		if !refused && len(l.Pieces)-l.Begin < 6 && strings.HasPrefix(g.Text, "stock ") && !manyBoards.MatchString(g.Text) { // a remark, more likely than a count
			return l.Line, err
		}
		var c grammar.Choice
		for text := range strings.Lines(g.Text) {
			got, gerr := again(text)
			if inner, ok := errors.AsType[*grammar.Ask](gerr); ok && len(inner.Choices) > 0 && !several {
				l.Line.Loose = true
				return l.Line, l.Choices(inner)
			}
			if gerr != nil {
				return l.Line, err
			}
			c.Lines = append(c.Lines, got)
		}
		if refused && g.Lost == 1 && !several && !tallies.MatchString(g.Text) {
			refusal.Hint = c.Lines[0].String()
			return l.Line, err
		}
		c.Label = allOf(len(c.Lines), strings.ReplaceAll(g.Text, "\n", "; "))
		ask.Choices = append(ask.Choices, c)
	}
	if len(ask.Choices) == 0 {
		if refused && warns(l) || err == grammar.ErrChatter && warns(l) && l.Tokens[0].Type != lex.Punct {
			return l.Line, unread.Kept(l, "")
		}
		return l.Line, err
	}
	return l.Line, orNote(l, ask)
}

// orNote adds to a question whether a line was meant so that it may be kept as a note instead, as it is if nobody
// answers.
func orNote(l *read.Source, ask *grammar.Ask) *grammar.Ask {
	ask.Choices = append(ask.Choices, grammar.Choice{Label: "no: keep it as a note", Lines: []grammar.Line{asNote(l)}})
	ask.Keep, l.Line.Loose = true, true
	return ask
}

// asNote returns a line as a note in its own words.
func asNote(l *read.Source) grammar.Line {
	return grammar.Line{Room: l.Room, Entry: record.Note{Text: unread.NoteText(l.Text[l.Pieces[l.Begin].Start:])}}
}

// allOf is the label of a choice of n entries, which says how many there are where that is hard to see.
func allOf(n int, label string) string {
	if n > 2 {
		return fmt.Sprintf("all %d: %s", n, label)
	}
	return label
}

// plainThing reports whether a line is a thing and its distances, with no other word of what it was found in.
func plainThing(text string) bool {
	head := strings.TrimRight(text[:max(0, strings.IndexAny(text, ",0123456789"))], " ")
	return lex.ThingOf[head] != "" && !strings.Contains(text, "\n")
}

// guess returns what a line may mean by its words, and what reads that.
func guess(l *read.Source) ([]sense.Guess, func(string) (grammar.Line, error)) {
	if l.Unknown == "" {
		if told := boarding.Of(l.Read, l.Names); told != nil {
			return told, l.Again
		}
		return sense.Of(l.Read, l.Names), l.Again
	}
	return sense.Of(l.Text, l.Names), func(text string) (grammar.Line, error) { // "bed a: 12'2 x 10'6" may be a new room
		if !strings.HasPrefix(text, "room ") {
			return l.Line, grammar.ErrChatter
		}
		return read.Nested(text, l.Context)
	}
}

// certain reads a guess that nothing else fits.
func certain(all []sense.Guess, again func(string) (grammar.Line, error)) (grammar.Line, bool) {
	if len(all) != 1 || !all[0].Sure || strings.Contains(all[0].Text, "\n") {
		return grammar.Line{}, false
	}
	got, err := again(all[0].Text)
	return got, err == nil
}

// mostLost is how many words of a line may have no part in what it is asked to mean.
const mostLost = 5

// tallies matches lines that give no new place.
var tallies = regexp.MustCompile(`^(?:\S+: )?(?:snag|used|delivered|check|coat|fix|delete|missed) `)

// Own returns the hint if it is the sender's own line put right, "" if it is an example.
func Own(r *grammar.Refusal) string {
	if unread.General(r) {
		return ""
	}
	return r.Hint
}

// warns reports whether a line says what somebody may be hurt by, or what is not to be closed: it
// is kept whatever else is in it.
func warns(l *read.Source) bool {
	said := lex.Lower(l.Read)
	return warned.MatchString(said) || live.MatchString(said) && !jokes(l) && slices.ContainsFunc(l.Tokens, func(t lexer.Token) bool {
		return t.Type == lex.Service || t.Type == lex.Thing || t.Type == lex.Room || wired[t.Value]
	})
}

func jokes(l *read.Source) bool {
	return slices.ContainsFunc(l.Pieces, func(p lex.Piece) bool { return p.Low == "lol" || p.Low == "haha" })
}

var (
	warned = pattern.Compile(`\b(?:do not|dont|don't|never) (?:touch|close|cover|bury|board|screw|drill|cut|nail|squash|crush)(?: up| in| into| over| through)*(?:$| (?:it|there|here|them|anything|yet)\b| (?:that|this)(?:$|[,.]| (?:yet|until|till|before)\b)|(?: the)? (?:\w+ )?(?:walls?|ceiling|lid|row|area|slope|bulkhead)\b)|` +
		`\b(?:asbestos|knob and tube|no (?:\w+ )?screws|gas smell|smell(?:s|ing)? (?:of )?gas|not signed off)\b`)
	live  = pattern.Compile(`\b(?:live|hot|energi[sz]ed|powered|leak(?:s|ing)?|drip(?:s|ping)?)\b`)
	wired = lex.Set("circuit", "circuits", "breaker", "knob", "wiring", "wires", "feed", "line", "lines", "pipes", "drain", "valve")
)
