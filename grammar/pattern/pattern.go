package pattern

import (
	"regexp"
	program "regexp/syntax"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"
)

// Pattern is a regular expression that is only tried on texts with a possible first byte and one of the
// words that a match must contain. Few lines match anything, and trying all patterns takes longer than
// parsing.
type Pattern struct {
	// Regexp returns the expression, which is compiled when it is first tried.
	Regexp func() *regexp.Regexp
	first  [utf8.RuneSelf]bool // ASCII characters with which a match may begin
	needs  []string            // one of these, in lower case, is in every match; empty if not known
}

// compiled are all patterns, for their test.
var compiled []*Pattern

// Compile makes a pattern of an expression, which must be valid.
func Compile(said string) *Pattern {
	p := &Pattern{Regexp: sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(said) })}
	tree, err := program.Parse(said, program.Perl)
	if err != nil {
		panic(err)
	}
	prog, err := program.Compile(tree.Simplify())
	if err != nil {
		panic(err)
	}
	p.follow(prog, step{at: uint32(prog.Start)}, map[step]bool{})
	p.needs = needs(tree)
	compiled = append(compiled, p)
	return p
}

// mostNeeds is the number of words to look for beyond which trying the pattern is cheaper.
const mostNeeds = 24

// needs returns words in lower case of which every match contains at least one; none if not known.
func needs(re *program.Regexp) []string {
	shortest := func(words []string) int {
		return len(slices.MinFunc(words, func(a, b string) int { return len(a) - len(b) }))
	}
	switch re.Op {
	case program.OpLiteral:
		return []string{strings.ToLower(string(re.Rune))}
	case program.OpCapture, program.OpPlus:
		return needs(re.Sub[0])
	case program.OpRepeat:
		if re.Min > 0 {
			return needs(re.Sub[0])
		}
	case program.OpAlternate:
		var all []string
		for _, sub := range re.Sub {
			words := needs(sub)
			if all = append(all, words...); words == nil || len(all) > mostNeeds {
				return nil
			}
		}
		return all
	case program.OpConcat: // the most selective part
		var best []string
		for _, sub := range re.Sub {
			if words := needs(sub); words != nil && (best == nil || shortest(words) > shortest(best)) {
				best = words
			}
		}
		return best
	}
	return nil
}

// step is an instruction of a pattern's program, and whether it is only reached at the start of the text.
type step struct {
	at   uint32
	held bool
}

// follow records what the program can begin with, from a step on.
func (p *Pattern) follow(prog *program.Prog, s step, met map[step]bool) {
	if met[s] {
		return
	}
	met[s] = true
	switch in := &prog.Inst[s.at]; in.Op {
	case program.InstAlt, program.InstAltMatch:
		p.follow(prog, step{in.Out, s.held}, met)
		p.follow(prog, step{in.Arg, s.held}, met)
	case program.InstCapture, program.InstNop:
		p.follow(prog, step{in.Out, s.held}, met)
	case program.InstEmptyWidth:
		p.follow(prog, step{in.Out, s.held || program.EmptyOp(in.Arg)&program.EmptyBeginText != 0}, met)
	case program.InstFail:
	default:
		for r := range p.first {
			p.first[r] = p.first[r] || !s.held || in.Op == program.InstMatch || in.MatchRune(rune(r))
		}
	}
}

// may reports whether the text can match, judging by its start and its words.
func (p *Pattern) may(s string) bool {
	if s != "" && s[0] < utf8.RuneSelf && !p.first[s[0]] {
		return false
	}
	low := strings.ToLower(s)
	return p.needs == nil || slices.ContainsFunc(p.needs, func(w string) bool { return strings.Contains(low, w) })
}

// MatchString reports whether the pattern matches.
func (p *Pattern) MatchString(s string) bool { return p.may(s) && p.Regexp().MatchString(s) }

func (p *Pattern) FindStringSubmatch(s string) []string {
	if !p.may(s) {
		return nil
	}
	return p.Regexp().FindStringSubmatch(s)
}

func (p *Pattern) FindStringSubmatchIndex(s string) []int {
	if !p.may(s) {
		return nil
	}
	return p.Regexp().FindStringSubmatchIndex(s)
}

// ReplaceAllString returns s with what the pattern matches replaced, see [regexp.Regexp.ReplaceAllString].
func (p *Pattern) ReplaceAllString(s, with string) string {
	if !p.may(s) {
		return s
	}
	return p.Regexp().ReplaceAllString(s, with)
}
