package topic

import (
	"cmp"
	"strings"
)

// apart expands contractions and unifies other spellings.
var apart = func() map[string]string {
	all := map[string]string{"what've": "what have", "cannot": "can not", "cant": "can not", "can't": "can not", "wont": "will not", "won't": "will not", "are": "is", "was": "is", "were": "is", "am": "is", "does": "do", "has": "have", "had": "have",
		"i": "we", "they": "we", "tmrw": "tomorrow", "sheets": "boards", "sheet": "board", "drywall": "board", "rock": "board", "lid": "ceiling", "lids": "ceiling", "ceilings": "ceiling", "materials": "material", "em": "them", "get": "gets", "fit": "fits",
		"enuf": "enough", "wht": "what", "lenght": "length", "hight": "height", "heigth": "height", "hite": "height", "widht": "width", "bord": "board", "peice": "piece", "peices": "pieces", "meny": "many", "cieling": "ceiling"}
	for _, w := range []string{"what", "where", "who", "how", "when", "there"} {
		all[w+"'s"], all[w+"s"], all[w+"'d"], all[w+"d"] = w+" is", w+" is", w+" did", w+" did"
	}
	for _, w := range []string{"is", "are", "was", "were", "do", "does", "did", "has", "have", "had", "could", "would", "should", "must"} {
		all[w+"nt"], all[w+"n't"] = cmp.Or(all[w], w)+" not", cmp.Or(all[w], w)+" not"
	}
	return all
}()

// Plainly returns a word in plain form, usually one word.
func Plainly(w string) []string {
	if said, ok := apart[w]; ok {
		return strings.Fields(said)
	}
	return []string{w}
}
