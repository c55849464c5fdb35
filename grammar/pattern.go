package grammar

import (
	"regexp"
	program "regexp/syntax"
	"unicode/utf8"
)

// pattern is a regular expression that is tried only on texts that begin as it can:
// most of the language's are held to the start of a line, and a line is one of few.
type pattern struct {
	*regexp.Regexp
	first [utf8.RuneSelf]bool // the ASCII that a text for it may begin with
}

func compile(said string) *pattern {
	p := &pattern{Regexp: regexp.MustCompile(said)}
	tree, err := program.Parse(said, program.Perl)
	if err != nil {
		panic(err) // MustCompile has read it
	}
	prog, err := program.Compile(tree.Simplify())
	if err != nil {
		panic(err)
	}
	p.follow(prog, step{at: uint32(prog.Start)}, map[step]bool{})
	return p
}

// step is an instruction of a pattern's program, and whether it is reached at the
// start of the text only.
type step struct {
	at   uint32
	held bool
}

// follow notes what the program can begin with from a step on.
func (p *pattern) follow(prog *program.Prog, s step, met map[step]bool) {
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

// may reports whether the text can match by how it begins.
func (p *pattern) may(s string) bool { return s == "" || s[0] >= utf8.RuneSelf || p.first[s[0]] }

func (p *pattern) FindStringSubmatch(s string) []string {
	if !p.may(s) {
		return nil
	}
	return p.Regexp.FindStringSubmatch(s)
}

func (p *pattern) FindStringSubmatchIndex(s string) []int {
	if !p.may(s) {
		return nil
	}
	return p.Regexp.FindStringSubmatchIndex(s)
}
