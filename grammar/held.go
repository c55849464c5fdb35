package grammar

import (
	"errors"
	"fmt"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
)

// Things may be placed off others, or several off one wall, in words that the rules have no order for. If
// the words leave the direction open, it is asked for.

// apartFrom are words between a distance and the thing it is measured from that give no direction.
var apartFrom = []string{" to the left of ", " left of ", " to the right of ", " right of ", " past ", " beyond ", " in from ", " away from ", " over from ", " out from ", " from ", " off of ", " off "}

var (
	towardWall = compile(`^(.+?),? (?:going |over )?(?:to|toward|towards|on) (?:the )?(north|east|south|west)(?: side| wall)?$`)
	straight   = compile(`^(.+?),? (?:(?:directly|straight|due|just|right|dead) )*(north|east|south|west) of (?:the )?(.+?),? (?:by |at )?(\d.*)$`)
	nextTo     = compile(`^(.+?) (?:right )?(?:next to|beside|alongside|close to|near|by) (?:the )?(.+)$`)
)

// heldTo reads a thing placed off another. ok is false if the line is not about one.
func (l *line) heldTo(said string) (got Line, err error, ok bool) {
	if cuts := l.offs(); len(cuts) > 0 { // "60 west 100 north"
		fixed := l.with(cuts...)
		if got, err := l.again(strings.TrimSpace(fixed[l.Pieces[l.begin].Start:])); err == nil {
			if th, is := got.Entry.(Thing); is && len(th.Fixes) > 1 && len(cuts) == len(th.Fixes) {
				ask := l.asks("off those walls?")
				ask.Choices = []Choice{{Label: strings.TrimPrefix(say(located{fixes: th.Fixes}), "on "), Text: got.String()}}
				return l.Line, ask, true
			}
		}
	}
	if m := straight.FindStringSubmatch(said); m != nil && l.Context.named(l.nameOf(m[3])) && l.isLength(m[4]) {
		got, err := l.again(fmt.Sprintf("%s, %s %s of %s", m[1], m[4], m[2], l.nameOf(m[3])))
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
		name = l.nameOf(name)
		head, far := l.lengthLast(before)
		if far == "" || !l.Context.named(name) {
			continue
		}
		ask := l.asks(fmt.Sprintf("%s which way from %s?", far, name))
		for _, w := range place.Walls {
			text := fmt.Sprintf("%s, %s %s of %s", head, far, w, name)
			got, err := l.again(text)
			if _, is := got.Entry.(Thing); err != nil || !is {
				continue
			}
			if string(w) == dir {
				return got, nil, true
			}
			ask.Choices = append(ask.Choices, Choice{Label: string(w), Text: got.String()})
		}
		if len(ask.Choices) > 0 && dir == "" {
			return l.Line, ask, true
		}
	}
	if m := nextTo.FindStringSubmatch(said); m != nil && !strings.ContainsAny(m[1], "0123456789") {
		kind, name := lex.ThingOf[articles(m[1])], l.nameOf(m[2])
		if kind != "" && l.Context.named(name) && l.declared(name) {
			r := l.refuse(l.Tokens[0].Pos, fmt.Sprintf("how far it is from %s, and which way", name))
			r.Hint = fmt.Sprintf("%s, 12 east of %s", kind, name)
			return l.Line, l.hinted(r), true
		}
	}
	if w, kind, _ := strings.Cut(said, " "); lex.Middles(w) && lex.ThingOf[kind] != "" { // "centre light"
		ask := l.asks("in the middle of the ceiling?")
		ask.Choices = []Choice{reads(kind+" in the middle", kind+" in the middle")}
		return l.Line, ask, true
	}
	if ask := l.anyCorner(said); ask != nil {
		return l.Line, ask, true
	}
	if ask := l.spread(said); ask != nil {
		return l.Line, ask, true
	}
	if ask := l.series(said); ask != nil {
		return l.Line, ask, true
	}
	return l.Line, nil, false
}

// anyCorner asks which corner is meant by a place equally far off both its walls.
func (l *line) anyCorner(said string) *Ask {
	m := bothWalls.FindStringSubmatchIndex(said)
	if m == nil {
		return nil
	}
	kind := strings.TrimRight(inCorner.ReplaceAllString(said[:m[0]]+said[m[1]:], ""), " ,")
	ask := l.asks("in which corner?")
	for _, ns := range []place.Wall{place.North, place.South} {
		for _, ew := range []place.Wall{place.West, place.East} {
			far := said[m[2]:m[3]]
			got, err := l.again(fmt.Sprintf("%s, %s off %s, %s off %s", kind, far, ns, far, ew))
			if _, is := got.Entry.(Thing); err != nil || !is {
				return nil
			}
			ask.Choices = append(ask.Choices, Choice{Label: string(ns) + string(ew), Text: got.String()})
		}
	}
	return ask
}

var (
	inCorner = compile(`,? ?(?:in|at|from|off) (?:the |a )?corner`)
	spread   = compile(`^(\d{1,2}|two|three|four|five|six|eight) ([a-z -]+?),? (?:(\d{1,2} ?x ?\d{1,2}),? )?(?:all )?(?:spread |spaced )?even(?:ly)?(?: spaced| spread)?(?: out)?$`)
)

// spread asks how an even spread of things is divided: how many in each direction.
func (l *line) spread(said string) *Ask {
	m := spread.FindStringSubmatch(said)
	if m == nil {
		return nil
	}
	n, ask := few(m[1]), l.asks("how many each way?")
	for a := n; a > 0; a-- {
		if n%a != 0 || m[3] != "" && a != few(m[3][:strings.IndexAny(m[3], " x")]) {
			continue
		}
		got, err := l.again(fmt.Sprintf("%s %d x %d even", m[2], a, n/a))
		if _, is := got.Entry.(Even); err != nil || !is {
			return nil
		}
		ask.Choices = append(ask.Choices, Choice{Label: fmt.Sprintf("%d east-west x %d north-south", a, n/a), Text: got.String()})
	}
	if len(ask.Choices) == 0 {
		return nil
	}
	return ask
}

// lengthLast splits text before the length at its end.
func (l *line) lengthLast(text string) (head, far string) {
	fields := strings.Fields(text)
	for i := max(1, len(fields)-4); i < len(fields); i++ {
		if far := strings.Join(fields[i:], " "); l.isLength(far) {
			return strings.TrimRight(strings.Join(fields[:i], " "), ","), far
		}
	}
	return "", ""
}

var (
	// atEach matches a kind with a list of distances off one wall, and one off another before or after
	// them.
	atEach = compile(`^(?:\d{1,2} |two |three |four |five |six )?(.+?),? (?:all |each |both |are |is )*(?:(\d[^,]*? (?:off|from) (?:the )?[a-z]+(?: wall| side)?),? (?:and )?)?(?:at |are |all |each |with )*(\d[\d'"/ .,&-]*(?:and \d[\d'"/ .-]*)?) (?:off|from) (?:the )?(north|east|south|west)(?: wall| side)?(?:,? (?:and )?(?:all |each |both )*(\d.*? (?:off|from) (?:the )?[a-z]+(?: wall| side)?))?$`)
	// stepped matches a number of things at a spacing, from the place of the first.
	stepped = compile(`^(?:(?:a )?row of )?(\d{1,2}|two|three|four|five|six|seven|eight) (.+?),? (?:in a row,? |spaced |all )*(\d.*?) (?:apart|oc|on cent(?:re|er)s?|spacing|between)(?: (?:from )?each other)?,? (?:and )?(?:starting|starts?|first|the first|beginning|from)(?: one)?(?: is)?(?: at)? (\d.*?)(?:,? (?:going|heading|running|to the|toward|towards) (?:the )?(north|east|south|west))?$`)
)

// series reads several things with the same distance off one wall, and asks whether they are meant.
func (l *line) series(said string) *Ask {
	if m := stepped.FindStringSubmatch(said); m != nil {
		return l.stepped(m)
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
		r, n, _ := length.Scan(rest, l.Units, length.List)
		if n == 0 || len(r) != 1 {
			return nil
		}
		at := strings.TrimSpace(rest[:n])
		lines, shown, rest = append(lines, fmt.Sprintf("%s, %s off %s, %s", m[1], at, m[4], m[2]+m[5])), append(shown, at), rest[n:]
	}
	return l.several(lines, strings.Join(shown, ", ")+" off "+m[4])
}

// several asks whether several things are meant.
func (l *line) several(lines []string, what string) *Ask {
	if len(lines) < 2 || len(lines) > mostMore {
		return nil
	}
	for i, text := range lines {
		got, err := l.again(text)
		th, is := got.Entry.(Thing)
		if err != nil || !is || len(th.Fixes) != 2 || th.Label+th.Name != "" { // each would repeat the same thing
			return nil
		}
		lines[i] = got.String()
	}
	ask := l.asks(fmt.Sprintf("%d of them?", len(lines)))
	ask.Choices = []Choice{{Label: what, Text: strings.Join(lines, "\n")}}
	ask.Keep = true
	return ask
}

// stepped asks for the direction of a row from its first thing, if that was not said.
func (l *line) stepped(m []string) *Ask {
	n := few(m[1])
	got, err := l.again(fmt.Sprintf("%s, %s", m[2], m[4]))
	first, is := got.Entry.(Thing)
	far, ferr := l.again("gap " + m[3])
	gap, isGap := far.Entry.(Gap)
	if _, asks := errors.AsType[*Ask](err); err != nil || asks || ferr != nil || !is || !isGap || len(first.Fixes) != 2 || first.Label+first.Name != "" || n < 2 || n > mostMore {
		return nil
	}
	ask := l.asks(fmt.Sprintf("%d of them, which way?", n))
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
			lines = append(lines, Line{Room: l.Room, Entry: next}.String())
		}
		ask.Choices = append(ask.Choices, Choice{Label: fmt.Sprintf("going %s: %s off %s", f.Wall.Opposite(), strings.Join(shown, ", "), f.Wall), Text: strings.Join(lines, "\n")})
	}
	if len(ask.Choices) == 0 {
		return nil
	}
	return ask
}
