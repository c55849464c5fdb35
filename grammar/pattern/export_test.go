package pattern

// Compiled are all patterns.
func Compiled() []*Pattern { return compiled }

// May reports whether a text is tried.
func (p *Pattern) May(said string) bool { return p.may(said) }
