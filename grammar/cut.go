package grammar

import (
	"errors"
	"regexp"
	"slices"
	"strings"

	"strapline/grammar/lex"
)

// People send several things in one breath: "row 3 up too, smoke box is cut. whats left".
// What cannot be read whole is cut where a sentence ends, or before what begins anew.

// Heard is what a text was read as.
type Heard struct {
	Line Line
	Err  error
}

// Cut returns as much of text as is one entry, and what stands behind it. read reads
// a text as the job stands. Text that can be read whole stays so, and what is kept word for word;
// whole is its reading, nil where none was needed.
func Cut(text string, read func(string) (Line, error)) (first, rest string, whole *Heard) {
	ends := breaks(text)
	if len(ends) == 0 || keepsAll(text) {
		return text, "", nil
	}
	line, err := read(text)
	whole = &Heard{line, err}
	_, title := line.Entry.(Job) // a title is kept word for word, and no sentence is in one
	loose := line.Loose && slices.ContainsFunc(ends, func(e brk) bool { return e.sentence })
	if stands(line, err) && !title && !loose {
		return text, "", whole
	}
	if title {
		for _, e := range ends {
			if rest := strings.TrimSpace(text[e.next:]); e.sentence || standsAlone(read, rest) {
				return text[:e.at], rest, nil
			}
		}
		return text, "", whole
	}
	for _, e := range slices.Backward(ends) {
		part, rest := strings.TrimRight(text[:e.at], " ,"), strings.TrimSpace(text[e.next:])
		switch {
		case !standsAlone(read, part):
		case e.sentence, e.anew && standsAlone(read, sentence(rest)), isWhole(read, part):
			return part, rest, nil
		}
	}
	for _, e := range ends { // nothing reads the beginning: it stays together, and what can be read behind it is not lost for it
		if rest := strings.TrimSpace(text[e.next:]); e.sentence && standsAlone(read, sentence(rest)) {
			return text[:e.at], rest, nil
		}
	}
	return text, "", whole
}

// sentence is the first sentence of text.
func sentence(text string) string {
	for _, e := range breaks(text) {
		if e.sentence {
			return text[:e.at]
		}
	}
	return text
}

func standsAlone(read func(string) (Line, error), text string) bool { return stands(read(text)) }

// stands reports whether what was read is an entry, or one that has to be asked about.
func stands(line Line, err error) bool {
	if note, ok := line.Entry.(Note); err == nil {
		return !ok || note.Why == ""
	}
	_, asks := errors.AsType[*Ask](err)
	return asks
}

// isWhole reports whether text is an entry that nothing is added to behind a comma.
func isWhole(read func(string) (Line, error), text string) bool {
	line, err := read(text)
	switch line.Entry.(type) {
	case Room, Hung, HungPlan, UpAll, Opened, Check, Alias, StockSet, Gap:
		return err == nil
	}
	ask, ok := errors.AsType[*Ask](err)
	return ok && len(ask.Choices) > 0 && strings.HasPrefix(ask.Choices[0].String(), "room ")
}

// brk is a place where a text may be cut: the byte its first part ends at, and the one the rest begins at.
type brk struct {
	at, next       int
	sentence, anew bool
}

// mostBreaks bounds the work for one message.
const mostBreaks = 8

var broken = regexp.MustCompile(`[.!?]+\s+|,\s+(?:and\s+|also\s+|then\s+|but\s+)?|\s+(?:and|then|also)\s+|\s+(?:straps?|strapped|strapping|walls|all \d|out of square)\b`)

// shortened are words that a full stop belongs to.
var shortened = lex.Set("in", "ft", "approx", "no", "o.c", "oc", "ctr", "min", "max", "n", "e", "s", "w", "vs", "st", "dr", "mr")

// breaks are the places where text may be cut: behind a sentence, and before what
// begins anew behind a comma or "and".
func breaks(text string) (all []brk) {
	if !strings.ContainsAny(text, ".!?,") && !strings.Contains(text, " and ") {
		return nil
	}
	for _, m := range broken.FindAllStringIndex(text, -1) {
		sign, before := text[m[0]], lex.Lower(text[:m[0]])
		sentence := strings.ContainsRune(".!?", rune(sign))
		switch {
		case m[0] == 0 || m[1] == len(text):
			continue
		case sentence:
			if sign == '.' && shortened[before[strings.LastIndexAny(before, " ,")+1:]] {
				continue
			}
		case sign == ' ' && strings.TrimSpace(text[m[0]:m[1]]) != "and" && strings.TrimSpace(text[m[0]:m[1]]) != "then" && strings.TrimSpace(text[m[0]:m[1]]) != "also":
			m[1] = m[0] + 1 // before the word
		}
		end := m[0]
		if sign == '?' {
			end++
		}
		if all = append(all, brk{end, m[1], sentence, !sentence && anew(text[m[1]:])}); len(all) == mostBreaks {
			break
		}
	}
	return all
}

// anew reports whether text begins as an entry does.
func anew(text string) bool {
	ps := lex.Pieces(text[:min(len(text), 40)])
	if len(ps) == 0 || !ps[0].Word() {
		return false
	}
	for _, ph := range lex.Phrases[ps[0].Low] {
		switch ph.Type {
		case lex.Thing, lex.Service, lex.Support, lex.Wall:
			return true
		}
		if ph.Value == "ceiling" || ph.Value == "row" {
			return true
		}
	}
	return headWord(ps[0].Low) || slices.Contains(Ordinals, ps[0].Low) || anewWords[ps[0].Low]
}

// anewWords begin an entry of more words.
var anewWords = lex.Set("walls", "wall", "all", "straps", "rafters", "trusses", "whats", "wheres", "how", "is", "can", "what", "where", "no", "bed", "living", "hall", "kitchen", "bath", "den")
