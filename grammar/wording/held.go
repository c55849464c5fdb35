package wording

import (
	"fmt"
	"strings"

	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
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
	if ask := anyCorner(l, said); ask != nil && len(ask.Choices) == 1 {
		got, err := l.Again(ask.Choices[0].Text)
		return got, err, true
	} else if ask != nil {
		return l.Line, ask, true
	}
	return l.Line, nil, false
}

// anyCorner asks which corner is meant by a place equally far off both its walls, unless it is named.
func anyCorner(l *read.Source, said string) *grammar.Ask {
	m := relate.BothWalls.FindStringSubmatchIndex(said)
	if m == nil {
		return nil
	}
	kind := strings.TrimRight(inCorner.ReplaceAllString(said[:m[0]]+said[m[1]:], ""), " ,")
	named := append(inCorner.FindStringSubmatch(said), "", "", "")
	ask := l.Asks("in which corner?")
	for _, ns := range []place.Wall{place.North, place.South} {
		for _, ew := range []place.Wall{place.West, place.East} {
			if !strings.HasPrefix(string(ns), named[1]) || !strings.HasPrefix(string(ew), named[2]) {
				continue
			}
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

var inCorner = pattern.Compile(`,? ?(?:in|at|from|off) (?:the |a )?(?:([ns])(?:orth|outh)?[ -]?([ew])(?:est|ast)? )?corner`)

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
