package wording

import (
	"errors"
	"fmt"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/hanging"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/pattern"
	"strapline/grammar/places"
	"strapline/grammar/read"
	"strapline/grammar/relate"
	"strapline/grammar/things"
)

// Things may be placed off others, or several off one wall, in words that the rules have no order for. If
// the words leave the direction open, it is asked for.

// apartFrom are words between a distance and the thing it is measured from that give no direction.
var apartFrom = []string{" to the left of ", " left of ", " to the right of ", " right of ", " past ", " beyond ", " in from ", " away from ", " over from ", " out from ", " from ", " off of ", " off "}

var (
	towardWall = pattern.Compile(`^(.+?),? (?:going |over )?(?:to|toward|towards|on) (?:the )?(north|east|south|west)(?: side| wall)?$`)
	straight   = pattern.Compile(`^(.+?),? (?:(?:directly|straight|due|just|right|dead) )*(north|east|south|west) of (?:the )?(.+?),? (?:by |at )?(\d.*)$`)
	nextTo     = pattern.Compile(`^(.+?) (?:right )?(?:next to|beside|alongside|close to|near|by) (?:the )?(.+)$`)
)

// HeldTo reads a thing placed off another. ok is false if the line is not about one.
func HeldTo(l *read.Source, said string) (got grammar.Line, err error, ok bool) {
	if cuts := places.Offs(l); len(cuts) > 0 { // "60 west 100 north"
		fixed := l.With(cuts...)
		if got, err := l.Again(strings.TrimSpace(fixed[l.Pieces[l.Begin].Start:])); err == nil {
			if th, is := got.Entry.(things.Thing); is && len(th.Fixes) > 1 && len(cuts) == len(th.Fixes) {
				ask := l.Asks("off those walls?")
				ask.Choices = []grammar.Choice{{Label: strings.TrimPrefix(canon.Say(canon.Located{Fixes: th.Fixes}), "on "), Text: got.String()}}
				return l.Line, ask, true
			}
		}
	}
	if m := straight.FindStringSubmatch(said); m != nil && l.Context.KnowsOf(l.NameOf(m[3])) && l.IsLength(m[4]) {
		got, err := l.Again(fmt.Sprintf("%s, %s %s of %s", m[1], m[4], m[2], l.NameOf(m[3])))
		return got, err, err == nil
	}
	for _, sep := range apartFrom {
		i := strings.LastIndex(said, sep)
		if i < 0 {
			continue
		}
		before, name, dir := said[:i], said[i+len(sep):], ""
		if m := towardWall.FindStringSubmatch(name); m != nil {
			name, dir = m[1], m[2]
		}
		name = l.NameOf(name)
		head, far := lengthLast(l, before)
		if far == "" || !l.Context.KnowsOf(name) {
			continue
		}
		ask := l.Asks(fmt.Sprintf("%s which way from %s?", far, name))
		for _, w := range place.Walls {
			text := fmt.Sprintf("%s, %s %s of %s", head, far, w, name)
			got, err := l.Again(text)
			if _, is := got.Entry.(things.Thing); err != nil || !is {
				continue
			}
			if string(w) == dir {
				return got, nil, true
			}
			ask.Choices = append(ask.Choices, grammar.Choice{Label: string(w), Text: got.String()})
		}
		if len(ask.Choices) > 0 && dir == "" {
			return l.Line, ask, true
		}
	}
	if m := nextTo.FindStringSubmatch(said); m != nil && !strings.ContainsAny(m[1], "0123456789") {
		kind, name := lex.ThingOf[grammar.WithoutArticles(m[1])], l.NameOf(m[2])
		if kind != "" && l.Context.KnowsOf(name) && l.Knows(name) {
			r := l.Refuse(l.Tokens[0].Pos, fmt.Sprintf("how far it is from %s, and which way", name))
			r.Hint = fmt.Sprintf("%s, 12 east of %s", kind, name)
			return l.Line, l.Hinted(r), true
		}
	}
	if w, kind, _ := strings.Cut(said, " "); lex.Middles(w) && lex.ThingOf[kind] != "" { // "centre light"
		ask := l.Asks("in the middle of the ceiling?")
		ask.Choices = []grammar.Choice{grammar.Reads(kind+" in the middle", kind+" in the middle")}
		return l.Line, ask, true
	}
	if ask := anyCorner(l, said); ask != nil {
		return l.Line, ask, true
	}
	if ask := spreadOut(l, said); ask != nil {
		return l.Line, ask, true
	}
	if ask := series(l, said); ask != nil {
		return l.Line, ask, true
	}
	return l.Line, nil, false
}

// anyCorner asks which corner is meant by a place equally far off both its walls.
func anyCorner(l *read.Source, said string) *grammar.Ask {
	m := relate.BothWalls.FindStringSubmatchIndex(said)
	if m == nil {
		return nil
	}
	kind := strings.TrimRight(inCorner.ReplaceAllString(said[:m[0]]+said[m[1]:], ""), " ,")
	ask := l.Asks("in which corner?")
	for _, ns := range []place.Wall{place.North, place.South} {
		for _, ew := range []place.Wall{place.West, place.East} {
			far := said[m[2]:m[3]]
			got, err := l.Again(fmt.Sprintf("%s, %s off %s, %s off %s", kind, far, ns, far, ew))
			if _, is := got.Entry.(things.Thing); err != nil || !is {
				return nil
			}
			ask.Choices = append(ask.Choices, grammar.Choice{Label: string(ns) + string(ew), Text: got.String()})
		}
	}
	return ask
}

var (
	inCorner = pattern.Compile(`,? ?(?:in|at|from|off) (?:the |a )?corner`)
	spread   = pattern.Compile(`^(\d{1,2}|two|three|four|five|six|eight) ([a-z -]+?),? (?:(\d{1,2} ?x ?\d{1,2}),? )?(?:all )?(?:spread |spaced )?even(?:ly)?(?: spaced| spread)?(?: out)?$`)
)

// spreadOut asks how an even spread of things is divided: how many in each direction.
func spreadOut(l *read.Source, said string) *grammar.Ask {
	m := spread.FindStringSubmatch(said)
	if m == nil {
		return nil
	}
	n, ask := relate.Few(m[1]), l.Asks("how many each way?")
	for a := n; a > 0; a-- {
		if n%a != 0 || m[3] != "" && a != relate.Few(m[3][:strings.IndexAny(m[3], " x")]) {
			continue
		}
		got, err := l.Again(fmt.Sprintf("%s %d x %d even", m[2], a, n/a))
		if _, is := got.Entry.(things.Even); err != nil || !is {
			return nil
		}
		ask.Choices = append(ask.Choices, grammar.Choice{Label: fmt.Sprintf("%d east-west x %d north-south", a, n/a), Text: got.String()})
	}
	if len(ask.Choices) == 0 {
		return nil
	}
	return ask
}

// lengthLast splits text before the length at its end.
func lengthLast(l *read.Source, text string) (head, far string) {
	fields := strings.Fields(text)
	for i := max(1, len(fields)-4); i < len(fields); i++ {
		if far := strings.Join(fields[i:], " "); l.IsLength(far) {
			return strings.TrimRight(strings.Join(fields[:i], " "), ","), far
		}
	}
	return "", ""
}

var (
	// atEach matches a kind with a list of distances off one wall, and one off another before or after
	// them.
	atEach = pattern.Compile(`^(?:\d{1,2} |two |three |four |five |six )?(.+?),? (?:all |each |both |are |is )*(?:(\d[^,]*? (?:off|from) (?:the )?[a-z]+(?: wall| side)?),? (?:and )?)?(?:at |are |all |each |with )*(\d[\d'"/ .,&-]*(?:and \d[\d'"/ .-]*)?) (?:off|from) (?:the )?(north|east|south|west)(?: wall| side)?(?:,? (?:and )?(?:all |each |both )*(\d.*? (?:off|from) (?:the )?[a-z]+(?: wall| side)?))?$`)
	// stepped matches a number of things at a spacing, from the place of the first.
	stepped = pattern.Compile(`^(?:(?:a )?row of )?(\d{1,2}|two|three|four|five|six|seven|eight) (.+?),? (?:in a row,? |spaced |all )*(\d.*?) (?:apart|oc|on cent(?:re|er)s?|spacing|between)(?: (?:from )?each other)?,? (?:and )?(?:starting|starts?|first|the first|beginning|from)(?: one)?(?: is)?(?: at)? (\d.*?)(?:,? (?:going|heading|running|to the|toward|towards) (?:the )?(north|east|south|west))?$`)
)

// series reads several things with the same distance off one wall, and asks whether they are meant.
func series(l *read.Source, said string) *grammar.Ask {
	if m := stepped.FindStringSubmatch(said); m != nil {
		return inSteps(l, m)
	}
	m := atEach.FindStringSubmatch(said)
	if m == nil || m[2] == "" && m[5] == "" {
		return nil
	}
	var lines, shown []string
	for rest := m[3]; strings.Trim(rest, " ,&") != ""; {
		if rest = strings.TrimLeft(rest, " ,&"); strings.HasPrefix(rest, "and ") {
			rest = rest[len("and "):]
		}
		r, n, _ := measure.Scan(rest, l.Units, measure.List)
		if n == 0 || len(r) != 1 {
			return nil
		}
		at := strings.TrimSpace(rest[:n])
		lines, shown, rest = append(lines, fmt.Sprintf("%s, %s off %s, %s", m[1], at, m[4], m[2]+m[5])), append(shown, at), rest[n:]
	}
	return several(l, lines, strings.Join(shown, ", ")+" off "+m[4])
}

// several asks whether several things are meant.
func several(l *read.Source, lines []string, what string) *grammar.Ask {
	if len(lines) < 2 || len(lines) > relate.MostMore {
		return nil
	}
	for i, text := range lines {
		got, err := l.Again(text)
		th, is := got.Entry.(things.Thing)
		if err != nil || !is || len(th.Fixes) != 2 || th.Label+th.Name != "" { // each would repeat the same thing
			return nil
		}
		lines[i] = got.String()
	}
	ask := l.Asks(fmt.Sprintf("%d of them?", len(lines)))
	ask.Choices = []grammar.Choice{{Label: what, Text: strings.Join(lines, "\n")}}
	ask.Keep = true
	return ask
}

// inSteps asks for the direction of a row from its first thing, if that was not said.
func inSteps(l *read.Source, m []string) *grammar.Ask {
	n := relate.Few(m[1])
	got, err := l.Again(fmt.Sprintf("%s, %s", m[2], m[4]))
	first, is := got.Entry.(things.Thing)
	far, ferr := l.Again("gap " + m[3])
	gap, isGap := far.Entry.(hanging.Gap)
	if _, asks := errors.AsType[*grammar.Ask](err); err != nil || asks || ferr != nil || !is || !isGap || len(first.Fixes) != 2 || first.Label+first.Name != "" || n < 2 || n > relate.MostMore {
		return nil
	}
	ask := l.Asks(fmt.Sprintf("%d of them, which way?", n))
	ask.Keep = true
	for k, f := range first.Fixes {
		if f.How != place.OffWall || f.Wall == "" || m[5] != "" && f.Wall != place.Wall(m[5]).Opposite() {
			continue
		}
		var lines, shown []string
		for i := range n {
			next := first
			next.Fixes = append([]place.Fix(nil), first.Fixes...)
			next.Fixes[k].L += length.Length(i) * gap.A.L
			shown = append(shown, length.Format(next.Fixes[k].L, l.Units))
			lines = append(lines, grammar.Line{Room: l.Room, Entry: next}.String())
		}
		ask.Choices = append(ask.Choices, grammar.Choice{Label: fmt.Sprintf("going %s: %s off %s", f.Wall.Opposite(), strings.Join(shown, ", "), f.Wall), Text: strings.Join(lines, "\n")})
	}
	if len(ask.Choices) == 0 {
		return nil
	}
	return ask
}
