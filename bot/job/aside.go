package job

import (
	"strings"
	"sync"

	"strapline/calc/inforce"
	"strapline/calc/site"
	"strapline/calc/work"
	"strapline/grammar"
)

// aside is where messages wait whose answers have to be planned. One at a time is
// answered beside the writer, at a copy of the desk that is thrown away: what it
// plans is kept. Then the message is answered anew at the desk itself, where it
// finds its plans, as long as nobody has changed what they are made from.
type aside struct {
	of   map[string]*held // by sender, lower case
	stop chan struct{}
	busy chan struct{} // holds one while a message is worked on
	all  *sync.WaitGroup
}

// held is the message of one sender that is being planned, and what the sender sent
// after it: a sender's messages are answered in their order.
type held struct {
	first  *planned
	behind []request
}

// planned is a message whose answer is planned.
type planned struct {
	req   request
	from  int   // how many entries there were when it came in
	steps int64 // what is left of its work
	tries int
}

// mostTries is how often a message is planned beside the writer while others change
// what it is planned from; after that its work is done at the desk.
const mostTries = 3

func newAside() aside {
	return aside{of: map[string]*held{}, stop: make(chan struct{}), busy: make(chan struct{}, 1), all: new(sync.WaitGroup)}
}

// work is what may be planned at the desk while the message is answered there.
func (p *planned) work() *inforce.Work {
	if p == nil {
		return &inforce.Work{Budget: work.Budget{Steps: inforce.MessageSteps}}
	}
	return &inforce.Work{Budget: work.Budget{Steps: p.steps}, Here: p.tries >= mostTries}
}

// hold puts a request behind the one of its sender that is being planned, if there
// is one. Where both ask the same the newer takes the older one's place, and older is
// the request to be answered with that.
func (a *aside) hold(req request, asks func(In) bool) (older *request, holds bool) {
	h := a.of[strings.ToLower(req.in.Who)]
	if h == nil || req.planned != nil {
		return nil, false
	}
	same := func(o request) bool {
		return o.in.Text == req.in.Text && o.in.ID != req.in.ID && o.in.Thread == req.in.Thread && o.in.Of == "" && req.in.Of == "" && asks(req.in)
	}
	if o := h.first.req; len(h.behind) == 0 && same(o) {
		h.first.req = req
		return &o, true
	}
	if n := len(h.behind) - 1; n >= 0 && same(h.behind[n]) {
		o := h.behind[n]
		h.behind[n] = req
		return &o, true
	}
	h.behind = append(h.behind, req)
	return nil, true
}

// asks reports whether a message only asks.
func (j *Job) asks(in In) bool {
	for _, text := range grammar.Split(in.Text) {
		line, err := j.ctx(in, text, in.Sent).Parse(text, false)
		if err != nil || !j.opt.Kinds.Asks(line.Entry) {
			return false
		}
	}
	return len(in.Photos) == 0
}

// put has a request planned.
func (j *Job) put(req request) {
	a := &j.aside
	p := req.planned
	if p == nil {
		p = &planned{from: len(j.state.Entries), steps: inforce.MessageSteps}
		req.planned = p
	}
	p.req = req
	p.tries++
	who := strings.ToLower(req.in.Who)
	if a.of[who] == nil {
		a.of[who] = &held{}
	}
	a.of[who].first = p
	copied := &desk{name: j.name, opt: j.opt, kept: j.kept, memory: j.memory.clone(), receipt: j.receipt}
	copied.work = &inforce.Work{Budget: work.Budget{Steps: p.steps, Done: a.stop}, Here: true}
	a.all.Add(1)
	go func(in In, entries []*site.Entry) {
		defer a.all.Done()
		select {
		case a.busy <- struct{}{}:
		case <-a.stop:
			return
		}
		copied.rehearse(in, entries)
		<-a.busy
		p.steps = copied.work.Steps
		select {
		case j.writer <- struct{}{}:
			j.atDesk(func() { j.answer(a.back(p)) })
		case <-a.stop:
		}
	}(req.in, j.state.Entries[:len(j.state.Entries):len(j.state.Entries)])
}

// rehearse answers a message at a copy of the desk, for the plans that it makes.
// Whatever else comes of it comes again at the desk itself.
func (d *desk) rehearse(in In, entries []*site.Entry) {
	var err error
	if d.state, err = fold(entries); err != nil {
		return
	}
	d.begin()
	_, _ = d.reply(in)
}

// back takes a sender's messages out of the aside again.
func (a *aside) back(p *planned) []request {
	who := strings.ToLower(p.req.in.Who)
	h := a.of[who]
	delete(a.of, who)
	p.req.planned = p
	return append([]request{p.req}, h.behind...)
}

// end gives up what is being planned.
func (a *aside) end() {
	close(a.stop)
	a.all.Wait()
}
