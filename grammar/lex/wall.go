package lex

import (
	"slices"
	"strings"
)

// opening are words that also name a wall: the door wall is not the door.
var opening = Set("door", "doorway", "window", "skylight", "closet")

// wallAt reports whether the opening from piece i to end stands for its wall: the window wall, the door
// side, and "5'8 off the window" if no height is said, with which it would be off its edge.
func (l *Reader) wallAt(i, end int) bool {
	if end < len(l.Pieces) && sideWords[l.Pieces[end].Low] {
		return true
	}
	if i > 0 && l.Pieces[i-1].Low == "the" {
		i--
	}
	return i > 0 && l.Pieces[end-1].Low == "window" && (l.Pieces[i-1].Low == "off" || l.Pieces[i-1].Low == "from") && !l.has("up")
}

// labels reports whether the name of a wall between pieces i and end is that of what is at it: "light over sink", "pot by the
// tub", but not "over the sink wall".
func (l *Reader) labels(i, end int) bool {
	if end < len(l.Pieces) && sideWords[l.Pieces[end].Low] {
		return false
	}
	for i--; i > 0 && (l.Pieces[i].Low == "the" || l.Pieces[i].Low == "a"); i-- {
	}
	return i > 0 && (aboveIt[l.Pieces[i].Low] || besideIt[l.Pieces[i].Low] && len(l.Tokens) > 0 && l.Tokens[0].Type == Thing)
}

var aboveIt, besideIt = Set("over", "above", "under", "below"), Set("by", "near", "beside", "at")

var sideWords = Set("wall", "side", "end", "gable")

func (l *Reader) has(word string) bool {
	return slices.ContainsFunc(l.Pieces, func(p Piece) bool { return p.Low == word })
}

// another reports whether the word before piece i tells that this is another room: the back bedroom is not
// the front bedroom.
func (l *Reader) another(i int, room string) bool {
	return i > 0 && Qualifies[l.Pieces[i-1].Low] && l.Pieces[i-1].Word() && !strings.Contains(" "+room+" ", " "+l.Pieces[i-1].Low+" ")
}

// Qualifies are words that distinguish rooms of a kind.
var Qualifies = Set(strings.Fields("front back upstairs downstairs guest master main small big second spare kids upper lower rear")...)
