package site

import (
	"slices"
	"strings"

	"strapline/calc/event"
	"strapline/calc/place"
)

// index finds things by name and by word.
type index struct {
	named map[string]*ThingState   // by name, the first thing; next leads to the others
	words map[string][]*ThingState // by each word of kind, name and label, except in names of one word
	most  int                      // words in the longest name

	routes map[string]bool // names of runs
}

// name indexes a thing by its name.
func (ix *index) name(t *ThingState) {
	ix.most = max(ix.most, 1+strings.Count(t.Name, " "))
	last := ix.named[t.Name]
	if last == nil {
		ix.named[t.Name] = t
		return
	}
	for last.next != nil {
		last = last.next
	}
	last.next = t
}

// of returns the things of exactly that name, in the order noted.
func (ix *index) of(name string) (all []*ThingState) {
	for t := ix.named[name]; t != nil; t = t.next {
		all = append(all, t)
	}
	return all
}

func (ix *index) add(t *ThingState, b event.Thing) {
	for _, text := range [3]string{b.What, b.Name, b.Label} {
		for w := range strings.FieldsSeq(text) {
			if w == b.Name { // already in named
				continue
			}
			if list := ix.words[w]; len(list) == 0 || list[len(list)-1] != t {
				ix.words[w] = append(list, t)
			}
		}
	}
}

// with returns the things with the word in their kind, name or label.
func (ix *index) with(word string) []*ThingState {
	return slices.Concat(ix.of(word), ix.words[word])
}

func (ix *index) count(word string) int { return len(ix.of(word)) + len(ix.words[word]) }

// HasName reports whether name is the full name of a thing or a run.
func (s *State) HasName(name string) bool {
	return s.things.named[name] != nil || s.things.routes[name]
}

// LongestName returns the number of words in the longest name.
func (s *State) LongestName() int { return s.things.most }

// HasWord reports whether word is in some thing's name, kind or label.
func (s *State) HasWord(word string) bool { return s.things.count(word) > 0 }

// Find returns the things that the words name: those of exactly that name, or else those with every word
// in their name, kind or label. Room names narrow it down. Struck things are left out.
func (s *State) Find(words string) []*ThingState {
	if found := slices.DeleteFunc(s.things.of(words), gone); len(found) > 0 {
		return found
	}
	room, need := s.roomIn(words)
	if found := s.withAll(room, need); len(found) > 0 {
		return found
	}
	// "above the sink" may be what was noted as "over sink", and "the opener box" its outlet.
	bare := slices.DeleteFunc(slices.Clone(need), func(w string) bool { return placing[w] })
	if len(bare) == len(need) || len(bare) < 2 && !slices.Contains(need, "box") {
		return nil
	}
	return s.withAll(room, bare)
}

// placing are words between a thing and what it is near, and for what it is in.
var placing = map[string]bool{"over": true, "above": true, "by": true, "near": true, "beside": true, "at": true, "next": true, "to": true, "under": true, "below": true, "behind": true, "for": true, "box": true}

// withAll returns the things with every word in their name, kind or label.
func (s *State) withAll(room *Room, need []string) []*ThingState {
	if len(need) == 0 {
		return nil
	}
	rare := slices.MinFunc(need, func(a, b string) int { return s.things.count(a) - s.things.count(b) })
	var out []*ThingState
	seen := map[*ThingState]bool{}
next:
	for _, t := range s.things.with(rare) {
		if seen[t] || gone(t) || (room != nil && t.Room != room) {
			continue
		}
		seen[t] = true
		v, _ := t.Now()
		text := " " + v.What + " " + t.Name + " " + v.Label + " "
		for _, w := range need {
			if !strings.Contains(text, " "+w+" ") {
				continue next
			}
		}
		out = append(out, t)
	}
	return out
}

// Labelled returns the things with the label's first word in their kind, name or label.
func (s *State) Labelled(label string) []*ThingState {
	first, _, _ := strings.Cut(label, " ")
	return s.things.with(first)
}

// Gone returns the things of exactly that name whose notes are all struck.
func (s *State) Gone(name string) []*ThingState {
	return slices.DeleteFunc(s.things.of(name), func(t *ThingState) bool { return !gone(t) })
}

// gone reports whether all notes of a thing are struck.
func gone(t *ThingState) bool { _, e := t.Now(); return e == nil }

// roomIn removes the name of a room from words, unless some thing has that name.
func (s *State) roomIn(words string) (*Room, []string) {
	padded := " " + words + " "
	var room *Room
	cut := func(name string, r *Room) {
		if before, after, ok := strings.Cut(padded, " "+name+" "); room == nil && ok && !s.HasWord(name) {
			room, padded = r, before+" "+after
		}
	}
	for _, r := range s.Standing() {
		cut(r.Name, r)
		r.Aliases(func(alias string, w place.Wall) {
			if w == "" {
				cut(alias, r)
			}
		})
	}
	return room, strings.Fields(padded)
}
