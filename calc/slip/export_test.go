package slip

// Kind is the likeliest slip that the probe tests.
func (p Probe) Kind() Kind { return p.Ways[0].Reasons[0].Kind }
