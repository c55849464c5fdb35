package lex

// Words for the middle of a ceiling, and words that may precede and follow them.
var (
	middles     = Set("centre", "center", "middle", "centred", "centered", "cntr", "ctr")
	centred     = Set("centred", "centered")
	toMiddle    = Set("in", "at", "dead", "right", "smack", "exactly", "exact", "the", "on")
	meansMiddle = Set("in", "at", "dead", "smack", "exact")
)

// Middles reports whether a word means the middle.
func Middles(w string) bool { return middles[w] }

// middle returns how many pieces from i on mean the middle of the room: "dead centre of the room",
// "centred in the ceiling". A bare "centre" is what a distance is measured to.
func (l *Reader) middle(i int) int {
	k, means := i, false
	for k < len(l.Pieces) && toMiddle[l.Pieces[k].Low] && !l.Pieces[k].Gone {
		means = means || meansMiddle[l.Pieces[k].Low]
		k++
	}
	if k == len(l.Pieces) || !middles[l.Pieces[k].Low] || l.Pieces[k].Gone {
		return 0
	}
	word := l.Pieces[k].Low
	k++
	switch {
	case k < len(l.Pieces) && (l.Pieces[k].Low == "between" || l.Pieces[k].Low == "along" || l.Pieces[k].Low == "over"):
		return 0
	case means, centred[word] && (len(l.Tokens) == 0 || !l.LengthBefore(i)):
		return k - i
	}
	return 0
}

// canBeside reports whether the word at piece i follows a light and no verb: "can over the sink 26 off west", "can
// two 60 off west".
func (l *Reader) canBeside(i int) bool {
	return beside[l.Pieces[i].Low] || Counts[l.Pieces[i].Low] > 0 && i+1 < len(l.Pieces) && l.Pieces[i+1].Kind == '0'
}

var beside = Set("over", "above", "near", "beside", "behind", "number")
