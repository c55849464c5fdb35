package grammar

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"strapline/calc/length"
)

// noun reports whether said names something that a person may have noted: at
// most five words, none of them talk, one of them a thing or a declared name,
// or all of them words that stand in a note or look like a name.
func (l *line) noun(said string) bool {
	fields := strings.Fields(said)
	if len(fields) == 0 || len(fields) > 5 || l.talkIn(said) != "" {
		return false
	}
	if l.Name != nil && l.Name(said) {
		return true
	}
	for i, f := range fields {
		if words.thing[f] != "" || shape(f) || l.Name != nil && l.Name(f) || i > 0 && words.thing[fields[i-1]+" "+f] != "" {
			return true
		}
	}
	return !slices.ContainsFunc(fields, func(w string) bool { return !(l.Noun != nil && l.Noun(w)) && !l.nameLike(w) })
}

// nameLike reports whether a word that nothing was noted by was meant as a
// name: l2b, or la and q where it is no person that is looked for.
func (l *line) nameLike(w string) bool {
	if len(w) > 6 || w[0] < 'a' || w[0] > 'z' || slices.Contains(english.soft, w) {
		return false
	}
	return strings.ContainsAny(w, "0123456789") || len(w) <= 2 && !strings.HasPrefix(l.ps[l.start].low, "where")
}

// word reports whether said is one word that may be a name though nothing was
// noted by it: who hears of it can say so.
func (l *line) word(said string) bool {
	return said != "" && !strings.Contains(said, " ") && l.talkIn(said) == ""
}

// talkIn returns the first word of ordinary talk in said.
func (l *line) talkIn(said string) string {
	for _, w := range strings.Fields(said) {
		if words.talk[w] {
			return w
		}
	}
	return ""
}

func (s *findSyntax) entry(l *line) (Entry, error) {
	switch {
	case s.Mark != "":
		return Find{s.Mark}, nil
	case s.Support != nil:
		of, err := s.Support.of(l)
		return Find{of.String()}, err
	}
	said := s.What.Text
	for k := strings.LastIndexByte(said, ' '); k > 0 && behindNames[said[k+1:]]; k = strings.LastIndexByte(said, ' ') {
		said = said[:k]
	}
	if said = canonicalThing(said); !l.noun(said) {
		return nil, l.refuse(s.What.Pos, "a noted thing")
	}
	count := 0
	for w := range strings.FieldsSeq(said) {
		if shape(w) {
			count++
		}
	}
	if count > 1 {
		return nil, l.refuse(s.What.Pos, "one thing at a time")
	}
	return Find{said}, nil
}

// behindNames are words behind the name of what is looked for: "where did the
// light go again".
var behindNames = set([]string{"go", "again", "now", "exactly", "then", "noted", "located"})

// canonicalThing puts the canonical kind for the thing at the end of a name:
// "sink pot light" and "sink lights" are the "sink light".
func canonicalThing(said string) string {
	fields := strings.Fields(said)
	for i := max(0, len(fields)-2); i < len(fields); i++ {
		if what := words.thing[strings.Join(fields[i:], " ")]; what != "" {
			return strings.TrimSpace(strings.Join(fields[:i], " ") + " " + what)
		}
	}
	return said
}

func (s *askSyntax) entry(*line) (Entry, error) {
	switch s.What {
	case "status":
		return Status{}, nil
	case "snags":
		return Snags{}, nil
	}
	return Covered{}, nil
}

func (s *anySyntax) entry(l *line) (Entry, error) {
	e := AnyOver{What: s.What}
	if s.Row != nil {
		if err := l.counted(s.Row); err != nil {
			return nil, err
		}
		e.Row = s.Row.N
	}
	return e, nil
}

func (s *whoSyntax) entry(l *line) (Entry, error) {
	e := Who{Surface: s.On.surface()}
	if s.Row != nil {
		if err := l.counted(s.Row); err != nil {
			return nil, err
		}
		e.Row = s.Row.N
	}
	if e == (Who{}) && l.Room == "" {
		return nil, l.refuseEnd("a row, the ceiling or a wall")
	}
	return e, nil
}

func (s *logSyntax) entry(l *line) (Entry, error) {
	var e Log
	for _, it := range s.Items {
		switch {
		case it.Today:
			e.Today = true
		case it.Since != nil:
			if err := l.counted(it.Since); err != nil {
				return nil, err
			}
			e.Since = it.Since.N
		case it.Room != "":
			l.inRoom(it.Room)
		case e.Of != "":
			return nil, l.refuse(it.Pos, "one person or one thing")
		case it.Of != "":
			e.Of = it.Of
		default:
			// A person's name may be any word, but not a sentence.
			if n := len(strings.Fields(it.Who.Text)); n > 1 && !l.noun(it.Who.Text) || l.talkIn(it.Who.Text) != "" || it.Who.Text == "in" || it.Who.Text == "out" {
				r := l.refuse(it.Pos, words.rows["log"].Fits)
				if it.Who.Text == "yesterday" {
					r.Want, r.Hint = `"today", or "since" and the number of the last note that you know`, "log since 12"
				}
				return nil, r
			}
			e.Of = it.Who.Text
		}
	}
	return e, nil
}

func (s *textSyntax) entry(l *line) (Entry, error) {
	switch s.What {
	case "note":
		return Note{s.Text}, nil
	case "job":
		title := strings.ToLower(strings.Join(strings.Fields(s.Text), " "))
		if l.talkIn(plain(title)) != "" || plain(title) == "" || len(title) > 80 {
			return nil, l.refuse(l.tokens[1].Pos, "a title")
		}
		return Job{title}, nil
	}
	said := strings.Fields(strings.ToLower(strings.TrimRight(s.Text, ".!")))
	if len(said) >= 2 && (said[len(said)-1] == "fixed" || said[len(said)-1] == "done") && (len(said) == 2 || len(said) == 3 && said[1] == "is") {
		if n, err := strconv.Atoi(strings.TrimPrefix(said[0], "#")); err == nil && n > 0 {
			return Snag{Fixed: n}, nil
		}
	}
	if len(said) == 1 && (said[0] == "list" || said[0] == "lists") {
		return nil, l.refuse(l.tokens[1].Pos, "what is wrong")
	}
	return Snag{Text: s.Text}, nil
}

func (s *undoSyntax) entry(l *line) (Entry, error) {
	switch {
	case s.New == nil:
		return Undo{}, nil
	case s.Old != nil:
		return l.swap(&s.New.number, &s.Old.number)
	}
	if n, ok := s.New.whole(); ok && n > 0 {
		r := l.refuse(s.New.Pos, fmt.Sprintf(`"strike %d" to take back note %d`, n, n))
		r.Hint = Strike{n}.String()
		return nil, r
	}
	return nil, l.refuse(s.New.Pos, words.rows["undo"].Fits)
}

func (s *strikeSyntax) entry(l *line) (Entry, error) { return Strike{s.Seq.N}, l.counted(&s.Seq) }

func (s *swapSyntax) entry(l *line) (Entry, error) {
	switch {
	case s.Right != nil:
		return s.Right.swap(l)
	case s.Wrong != nil:
		return l.swap(&s.Then.number, &s.Wrong.number)
	case s.Not != nil:
		return l.swap(&s.New.number, &s.Not.number)
	}
	v, err := l.within(&s.New.number, anyLength)
	return Swap{New: v}, err
}

func (s *rightSyntax) swap(l *line) (Entry, error) { return l.swap(&s.New.number, &s.Old.number) }

func (l *line) swap(right, wrong *number) (Entry, error) {
	a, err := l.within(right, anyLength)
	if err != nil {
		return nil, err
	}
	b, err := l.within(wrong, anyLength)
	return Swap{a, b}, err
}

func (s *unitsSyntax) entry(l *line) (Entry, error) {
	switch s.Units {
	case "imperial", "inches", "feet", "inch":
		return UnitsSet{length.Imperial}, nil
	case "metric", "mm", "metres", "meters", "millimetres", "millimeters":
		return UnitsSet{length.Metric}, nil
	}
	return nil, l.refuse(l.tokens[1].Pos, "imperial or metric")
}

func (s *builtSyntax) entry(l *line) (Entry, error) {
	if s.Year.N < 1500 || s.Year.N > 2200 {
		return nil, l.refuse(s.Year.Pos, "a year like 1962")
	}
	return Built{s.Year.N}, nil
}

func (s *helpSyntax) entry(l *line) (Entry, error) {
	if s.Topic == nil {
		return Help{}, nil
	}
	if len(Topic(s.Topic.Text)) == 0 {
		return nil, l.refuse(s.Topic.Pos, "one word of the list")
	}
	return Help{s.Topic.Text}, nil
}

func (s *bareSyntax) entry(l *line) (Entry, error) {
	v, err := l.within(&s.L.number, anyLength)
	return Bare{v}, err
}
