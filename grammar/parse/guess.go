package parse

import (
	"cmp"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/grammar"
	"strapline/grammar/boarding"
	"strapline/grammar/landmark"
	"strapline/grammar/lex"
	"strapline/grammar/missing"
	"strapline/grammar/pattern"
	"strapline/grammar/read"
	"strapline/grammar/record"
	"strapline/grammar/relate"
	"strapline/grammar/rough"
	"strapline/grammar/sense"
	"strapline/grammar/sentences"
	"strapline/grammar/speech"
	"strapline/grammar/spots"
	"strapline/grammar/things"
	"strapline/grammar/topic"
	"strapline/grammar/unread"
	"strapline/grammar/wording"
)

// unreadLine is a line that no rule reads, and what it may mean by its words: things and where they are, boards, and
// the rest. Each is worked out once.
type unreadLine struct {
	*read.Source
	words        func() *speech.Line
	spots        func() *spots.Meaning
	boards, told func() []speech.Guess
	rights       func() bool           // it says which number was wrong
	spelt        func() (string, int)  // with slips in its words put right, and how many
	plain        func() (string, bool) // without the words that carry nothing, and whether one may have put something right
}

func newUnread(l *read.Source) *unreadLine {
	words := sync.OnceValue(func() *speech.Line { return speech.Scan(l) })
	return &unreadLine{l, words,
		sync.OnceValue(func() *spots.Meaning { return spots.Of(words()) }),
		sync.OnceValue(func() []speech.Guess { return boarding.Of(l) }),
		sync.OnceValue(func() []speech.Guess {
			all := sense.Of(words())
			if len(all) > 0 && sense.OwnWords.MatchString(all[0].Text) && unread.OffWork(l) {
				return nil
			}
			return all
		}),
		sync.OnceValue(func() bool {
			said, ok := relate.Slots(l.Context, l.Text)
			return ok && slices.ContainsFunc(said.Numbers, func(n relate.Number) bool { return n.Old != "" })
		}),
		sync.OnceValues(func() (string, int) { return speech.Respelt(l) }),
		sync.OnceValues(func() (string, bool) { return topic.WithoutNoise(l.Text) })}
}

// guesses returns what a line says of boards, else of the rest of the work.
func (l *unreadLine) guesses() []speech.Guess {
	if l.Unknown != "" {
		return nil
	}
	if all := l.boards(); all != nil {
		return all
	}
	return l.told()
}

// asked reads guesses, most likely first: a sure one, or a question whether one of them was meant. ok is false if
// one of them cannot be read.
func (l *unreadLine) asked(all []speech.Guess, again func(string) (grammar.Line, error)) (got grammar.Line, err error, ok bool) {
	if len(all) == 0 {
		return l.Line, nil, false
	}
	if l.leaveOut(all) {
		return l.Line, nil, false
	}
	ask := l.Asks(cmp.Or(all[0].Asks, "did you mean this?"))
	for _, g := range all {
		if ask.Base = g.Base; g.Base != "" {
			ask.Keep = true
			break
		}
		c := grammar.Choice{}
		for text := range strings.Lines(g.Text) {
			line, gerr := again(text)
			if inner, asks := errors.AsType[*grammar.Ask](gerr); asks && len(inner.Choices) > 0 && !strings.Contains(g.Text, "\n") && g.Then == "" {
				l.Line.Loose = true
				inner = l.Choices(inner)
				for i := range inner.Choices {
					if c := &inner.Choices[i]; g.Note {
						c.Text, c.Lines = c.String()+"\n"+asNote(l.Source).String(), nil
					}
				}
				return l.Line, inner, true
			}
			if gerr != nil {
				return l.Line, nil, false
			}
			if g.Sure {
				return line, nil, true
			}
			c.Lines = append(c.Lines, line)
		}
		c.Label = cmp.Or(g.Label, allOf(len(c.Lines), label(g.Text)))
		if g.Then != "" {
			c.Lines, c.Text = nil, strings.TrimLeft(g.Text+"\n"+g.Then, "\n")
		}
		if g.Note {
			c.Label, c.Lines = c.Label+", and the rest as a note", append(c.Lines, asNote(l.Source))
		}
		ask.Choices = append(ask.Choices, c)
	}
	if all[0].Either {
		return l.Line, ask, true
	}
	ask = orNote(l.Source, ask)
	l.Line.Loose = !all[0].Tied
	return l.Line, ask, true
}

// leaveOut reports whether a measure that was said is in none of the guesses: a place that is half read is worse than
// a note. Counts show in the number of entries, lumber such as 2x6 in inches, and boards have numbers of their own.
func (l *unreadLine) leaveOut(all []speech.Guess) bool {
	if l.boards() != nil {
		return false
	}
	var said []string
	for _, g := range all {
		if g.Note || g.Keep || g.Worked {
			return false
		}
		said = append(said, figures.FindAllString(g.Text+" "+g.Then+" "+g.Base+" "+g.Asks+" "+g.Label, -1)...)
		said = append(said, strconv.Itoa(1+strings.Count(g.Text, "\n")))
	}
	words := l.words().Items
	near := func(i int) speech.Item {
		if i < 0 || i >= len(words) {
			return speech.Item{}
		}
		return words[i]
	}
	for i, it := range words {
		switch next := near(i + 1); {
		case it.Tag != speech.Length,
			next.Tag == 'x' && it.Low == "2", near(i-1).Tag == 'x' && near(i-2).Low == "2", // lumber
			next.Tag == speech.Thing && it.N > 1 && strings.HasSuffix(next.Low, "s"), strings.HasPrefix(next.Low, "gang"), it.N > 0 && next.Low == "at": // strap 1 at 0, 2 at 16
		case slices.ContainsFunc(figures.FindAllString(it.Low, -1), func(n string) bool { return !slices.Contains(said, n) }):
			return true
		}
	}
	return false
}

var figures = regexp.MustCompile(`\d+`)

// placed reads things and where they are by the words of a line. ok is false if they tell nothing that can be
// taken; otherwise it is an entry, or a question. A single thing with words to spare is only asked about once it
// is clear why nothing else reads the line.
func (l *unreadLine) placed(why error) (got grammar.Line, err error, ok bool) {
	if l.Question || l.Lost || l.Begin >= len(l.Pieces) || len(l.Pieces) > 60 || l.Unknown != "" || l.Room2 != "" || l.rights() {
		return l.Line, nil, false
	}
	m := l.spots()
	if m == nil || m.Lost > mostLost || landmark.Name(l.Source) != "" { // whichever wall that is
		return l.Line, nil, false
	}
	if m.Lost > 0 && m.Base == "" && len(m.Readings) == 1 && len(m.Readings[0].Lines) == 1 {
		if r, refused := errors.AsType[*grammar.Refusal](why); why == nil || refused && (!unread.General(r) || len(l.Pieces)-l.Begin < 8) {
			return l.Line, nil, false // naming the wrong word helps more
		} else if refused && m.Lost == 1 {
			if hint := l.Attempt(m.Readings[0].Lines[0]); hint != "" {
				r.Hint = hint
				return l.Line, r, true
			}
		}
	}
	if m.Base != "" {
		if l.leaveOut([]speech.Guess{{Text: m.Base}}) {
			return l.Line, nil, false
		}
		ask := l.Asks(m.Why)
		ask.Base, ask.Keep = grammar.InRoom(l.Room, m.Base), true
		return l.Line, ask, true
	}
	var all []speech.Guess
	for _, r := range m.Readings {
		g := speech.Guess{Text: strings.Join(r.Lines, "\n"), Then: r.Then, Sure: m.Sure, Worked: m.Worked, Asks: m.Why, Label: strings.Join(r.Lines, "; "),
			Either: m.Why != "" && len(m.Readings[0].Lines) < 2} // each choice is an answer to it
		if r.Short != "" {
			g.Label = r.Lines[0][:strings.Index(r.Lines[0], ",")] + " at " + r.Short
		}
		g.Label = allOf(len(r.Lines), g.Label)
		switch {
		case r.Label != "" && g.Either:
			g.Label = r.Label
		case r.Label != "":
			g.Label = r.Label + ": " + g.Label
		}
		if m.Why == "" {
			g.Label = grammar.InRoom(l.Room, g.Label)
		}
		all = append(all, g)
	}
	got, err, ok = l.asked(all, l.Again)
	if ask, asks := errors.AsType[*grammar.Ask](err); asks {
		ask.Keep = ask.Keep || m.Why != ""
		l.Line.Loose = ask.Keep && (m.Lost > 0 || !m.Tied)
		got = l.Line
	}
	return got, err, ok
}

// ofRough reads a line about rooms, framing and runs by its words in any order, and asks whether that was
// meant if some of them have no part in it. ok is false if it is about none of these.
func (l *unreadLine) ofRough() (got grammar.Line, err error, ok bool) {
	if l.Lost || l.Begin >= len(l.Pieces) {
		return l.Line, nil, false
	}
	of, again := l.words, func(text string) (grammar.Line, error) {
		if l.words().Of == "several" && l.Room2 != "" || l.Unknown == "" && strings.HasPrefix(text, "room ") { // it names its own
			return read.Nested(text, l.Context)
		}
		return l.Again(text)
	}
	if l.Unknown != "" { // "den: 12'2 x 10'6" may be a new room
		of = func() *speech.Line { return speech.Scan(read.CutLine(strings.Replace(l.Text, ":", ",", 1), l.Context)) }
		again = func(text string) (grammar.Line, error) {
			if !strings.HasPrefix(text, "room ") {
				return l.Line, grammar.ErrChatter
			}
			return read.Nested(text, l.Context)
		}
	}
	all := rough.Of(of())
	if len(all) > 0 && strings.HasPrefix(all[0].Text, "room ") && (l.boards() != nil && wording.RoomNamedIn(lex.Lower(l.Text)) == "" || stackOf.MatchString(l.Read)) { // "six 4x12, stacked in the hall"
		return l.Line, nil, false
	}
	if len(all) > 0 && all[0].Keep && l.told() == nil {
		kept := unread.Kept(l.Source, "")
		if as, ok := errors.AsType[*unread.Keeps](kept); ok {
			as.Sure = true
		}
		return l.Line, kept, true
	}
	return l.asked(all, again)
}

// stackOf matches boards by their count and size: "28 4x14".
var stackOf = regexp.MustCompile(`(?i)\b\d+ 4'? ?(?:x|by) ?(?:8|9|10|12|14|16)\b`)

// sensed reads a line that no rule reads by its words alone, if each has a part in what it means, and asks
// whether that was meant if not. It returns err if that cannot be told.
func (l *unreadLine) sensed(err error) (grammar.Line, error) {
	if l.AsksSomething() || l.Lost || l.Begin >= len(l.Pieces) || len(l.Pieces) > 60 {
		return l.Line, err
	}
	refusal, refused := errors.AsType[*grammar.Refusal](err)
	if _, ok := errors.AsType[*grammar.Ask](err); ok || refused && l.Wrong != nil {
		return l.Line, err
	}
	if got, gerr, ok := l.placed(err); ok {
		return got, gerr
	}
	if got, ok := l.certain(l.guesses()); ok {
		return got, nil
	}
	if all := l.boards(); refused && !unread.General(refusal) && (len(all) == 0 || all[0].Lost > 0 || all[0].Note) {
		return l.Line, err
	}
	var all []speech.Guess
	for _, g := range l.guesses() {
		told, several, short := tallies.MatchString(g.Text), strings.Contains(g.Text, "\n"), len(l.Pieces)-l.Begin
		switch {
		case g.Lost > mostLost && !told, strings.HasPrefix(g.Text, "snag ") && !unread.Tells(l.Source): // "he has a screw loose"
			continue
		case refused && !several && short < 8 && !told && (g.Lost > 0 || !tellsUp.MatchString(g.Text)), // in a short line, naming the wrong word helps more than a question
			!refused && short < 6 && strings.HasPrefix(g.Text, "stock ") && !manyBoards.MatchString(g.Text): // a remark, more likely than a count
			return l.Line, err
		case refused && g.Lost == 1 && !several && !told:
			if hint := l.Attempt(g.Text); hint != "" {
				refusal.Hint = hint
				return l.Line, err
			}
		}
		g.Sure = false
		all = append(all, g)
	}
	if got, gerr, ok := l.asked(all, l.Again); ok {
		return got, gerr
	}
	if len(all) == 0 && (refused && warns(l.Source) || err == grammar.ErrChatter && warns(l.Source) && l.Tokens[0].Type != lex.Punct) {
		return l.Line, unread.Kept(l.Source, "")
	}
	return l.Line, err
}

// lacking asks for what a line leaves out that is otherwise only kept, refused in general words or not answered.
func (l *unreadLine) lacking(why error) error {
	kept, keeps := errors.AsType[*unread.Keeps](why)
	refusal, refused := errors.AsType[*grammar.Refusal](why)
	if l.Strict || l.rights() || l.Lost || l.Begin >= len(l.Pieces) || l.Unknown != "" || l.Room2 != "" ||
		keeps && kept.Sure || refused && refusal.Near != "" || !keeps && !refused && why != grammar.ErrChatter {
		return why
	}
	all, again := missing.Of(l.words()), l.Again
	if all == nil {
		all, again = l.unnamed()
	}
	if all != nil && landmark.Name(l.Source) != "" { // it would be left out, whichever wall that is
		return why
	}
	if len(all) > 0 && refused && !all[0].Tied { // naming the wrong word helps more
		return why
	}
	if _, ask, ok := l.asked(all, again); ok {
		why, l.Line.Loose = ask, true
	}
	return why
}

// unnamed is a thing by a name of its own, and what reads it.
func (l *unreadLine) unnamed() ([]speech.Guess, func(string) (grammar.Line, error)) {
	said := missing.Fitting(l.Source)
	if said == "" || l.guesses() != nil {
		return nil, l.Again
	}
	c := *l.Context
	c.Whole = true
	return []speech.Guess{{Text: said}}, func(text string) (grammar.Line, error) {
		got, err := parse(text, &c, false)
		if ask, asks := errors.AsType[*grammar.Ask](err); asks && len(ask.Choices) > 0 && len(ask.Choices[0].Lines) > 0 {
			got = ask.Choices[0].Lines[0]
		}
		if th, is := got.Entry.(things.Thing); !is || len(th.Fixes) < 2 {
			return got, grammar.ErrChatter
		}
		return got, err
	}
}

// respelt asks whether a line was meant that is read once its words are put right: "cieling hite 94". ok is false if there
// is none, or the refusal names the wrong word. With no refusal yet, only several slips count.
func (l *unreadLine) respelt(why error) (got grammar.Line, err error, ok bool) {
	_, keeps := errors.AsType[*unread.Keeps](why)
	refusal, refused := errors.AsType[*grammar.Refusal](why)
	if l.Spelt || why != nil && !keeps && why != grammar.ErrChatter && !(refused && unread.General(refusal) && refusal.Near == "") {
		return l.Line, nil, false
	}
	said, n := l.spelt()
	if n == 0 || why == nil && n == 1 {
		return l.Line, nil, false
	}
	spelt := *l.Context
	spelt.Spelt = true
	got, err = read.Anew(said, &spelt)
	ask, asks := errors.AsType[*grammar.Ask](err)
	row := (*read.Row)(nil)
	if err == nil {
		row = read.Words.Rows[got.Entry.Kind()]
	}
	if asks {
		notesInOwnWords(ask, said, l.Text, l.Context)
	}
	switch {
	case !sentences.Stands(got, err), row != nil && row.Text && !row.Asks, asks && len(ask.Choices) > 0 && tellsUp.MatchString(ask.Choices[0].String()): // boards have words of their own
		return l.Line, nil, false
	case asks, row != nil && row.Asks:
		return got, err, true
	}
	return l.Line, orNote(l.Source, meant(l.Source, got.String(), got)), true
}

// certain reads a guess that nothing else fits.
func (l *unreadLine) certain(all []speech.Guess) (grammar.Line, bool) {
	if len(all) != 1 || !all[0].Sure || strings.Contains(all[0].Text, "\n") {
		return grammar.Line{}, false
	}
	got, err := l.Again(all[0].Text)
	return got, err == nil
}

// label words what is proposed: several entries on one line, and the ends of a run as crews say them.
func label(text string) string {
	text = strings.NewReplacer("\n", "; ", "from 0 up to 0 down", "from floor to ceiling").Replace(text)
	return atWall.ReplaceAllString(text, "$1")
}

var atWall = regexp.MustCompile(`((?:from|to) )0 off `)

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

// inOwnWords gives a note that holds the end of what was read the words of its sender.
func inOwnWords(e grammar.Entry, read, typed string, c *grammar.Context) grammar.Entry {
	note, is := e.(record.Note)
	if _, rest := relate.RoomBefore(typed, c); is && read != typed && strings.HasSuffix(read, note.Text) {
		note.Text = unread.NoteText(rest)
		return note
	}
	return e
}

func notesInOwnWords(ask *grammar.Ask, read, typed string, c *grammar.Context) {
	for _, ch := range ask.Choices {
		if n := len(ch.Lines); n > 0 {
			ch.Lines[n-1].Entry = inOwnWords(ch.Lines[n-1].Entry, read, typed, c)
		}
	}
}

// allOf is the label of a choice of n entries, which says how many there are where that is hard to see.
func allOf(n int, label string) string {
	if n > 2 {
		return fmt.Sprintf("all %d: %s", n, label)
	}
	return label
}

// mostLost is how many words of a line may have no part in what it is asked to mean.
const mostLost = 5

// tellsUp matches lines of board that is up.
var tellsUp = regexp.MustCompile(`(?m)^(?:\S+: )?(?:hung|so far) | up(?: |$)`)

// tallies matches lines that give no new place.
var tallies = regexp.MustCompile(`^(?:\S+: )?(?:snag|used|delivered|check|coat|fix|delete|missed|open|buried) `)

// warns reports whether a line says what somebody may be hurt by, or what is not to be closed: it
// is kept whatever else is in it.
func warns(l *read.Source) bool {
	said := lex.Lower(l.Read)
	return warned.MatchString(said) || live.MatchString(said) && !strings.Contains(said, "lol") && !strings.Contains(said, "haha") && slices.ContainsFunc(l.Tokens, func(t lexer.Token) bool {
		return t.Type == lex.Service || t.Type == lex.Thing || t.Type == lex.Room || wired[t.Value]
	})
}

var (
	warned = pattern.Compile(`\b(?:do not|dont|don't|never) (?:touch|screw|drill|cut|nail|squash|crush)(?: up| in| into| over| through)*(?:$| (?:it|there|here|them|anything|yet)\b|(?: the)? (?:\w+ )?(?:walls?|ceiling|lid|row|area|slope|bulkhead)\b)|` +
		`\b(?:asbestos|knob and tube|no (?:\w+ )?screws|gas smell|smell(?:s|ing)? (?:of )?gas|not signed off)\b`)
	live  = pattern.Compile(`\b(?:live|hot|energi[sz]ed|powered|leak(?:s|ing)?|drip(?:s|ping)?)\b`)
	wired = lex.Set("circuit", "circuits", "breaker", "knob", "wiring", "wires", "feed", "line", "lines", "pipes", "drain", "valve")
)

// manyBoards matches a count that is hardly one of anything but boards: "got 20 twelves", not "got a 10 minute break".
var manyBoards = regexp.MustCompile(`^stock (?:[5-9]|\d\d+) `)
