package job

import (
	"strings"
	"sync"

	"strapline/bot/message"
	"strapline/calc/inforce"
	"strapline/calc/site"
	"strapline/calc/work"
)

// aside holds messages whose answers need planning. They are answered one at a time beside the writer, on
// a copy of the desk that is thrown away, but the plans it makes stay cached. Then the message is answered
// again at the desk itself, where the plans are found unless somebody has changed what they depend on.
type aside struct {
	of   map[string]*held // by sender, lower case
	stop chan struct{}
	busy chan struct{} // full while a message is being planned
	all  *sync.WaitGroup
}

// held is the message of one sender that is being planned, and the later ones of that sender: messages of
// one sender are answered in order.
type held struct {
	first  *planned
	behind []request
}

// planned is a message whose answer needs planning.
type planned struct {
	req   request
	from  int   // number of entries when it came in
	steps int64 // steps left for planning
	tries int
}

// mostTries is how often a message is planned beside the writer while others change what the plan depends
// on. After that it is planned at the desk.
const mostTries = 3

func newAside() aside {
	return aside{of: map[string]*held{}, stop: make(chan struct{}), busy: make(chan struct{}, 1), all: new(sync.WaitGroup)}
}

// work returns the budget for planning at the desk while the message is answered there.
func (p *planned) work() *inforce.Work {
	if p == nil {
		return &inforce.Work{Budget: work.Budget{Steps: inforce.MessageSteps}}
	}
	return &inforce.Work{Budget: work.Budget{Steps: p.steps}, Here: p.tries >= mostTries}
}

// since returns the number of entries when the message came in, -1 if nothing was planned for it.
func (p *planned) since() int {
	if p == nil {
		return -1
	}
	return p.from
}

// hold queues a request behind the one of its sender that is being planned, if any. If the last two ask
// the same, the newer replaces the older, and older is returned to be answered with a pointer to the
// newer.
func (a *aside) hold(req request, asks func(message.In) bool) (older *request, holds bool) {
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

// put starts planning a request.
func (j *Job) put(req request) {
	a := &j.aside
	p := req.planned
	if p == nil {
		p = &planned{from: len(j.desk.State.Entries), steps: inforce.MessageSteps}
		req.planned = p
	}
	p.req = req
	p.tries++
	who := strings.ToLower(req.in.Who)
	if a.of[who] == nil {
		a.of[who] = &held{}
	}
	a.of[who].first = p
	spend := &inforce.Work{Budget: work.Budget{Steps: p.steps, Done: a.stop}, Here: true}
	copied := j.desk.Copy(spend)
	a.all.Add(1)
	go func(in message.In, entries []*site.Entry) {
		defer a.all.Done()
		select {
		case a.busy <- struct{}{}:
		case <-a.stop:
			return
		}
		copied.Rehearse(in, entries)
		<-a.busy
		p.steps = spend.Steps
		select {
		case j.writer <- struct{}{}:
			j.atDesk(func() { j.answer(a.back(p)) })
		case <-a.stop:
		}
	}(req.in, j.desk.State.Entries[:len(j.desk.State.Entries):len(j.desk.State.Entries)])
}

// back takes a sender's messages out of the aside.
func (a *aside) back(p *planned) []request {
	who := strings.ToLower(p.req.in.Who)
	h := a.of[who]
	delete(a.of, who)
	p.req.planned = p
	return append([]request{p.req}, h.behind...)
}

// end cancels the planning.
func (a *aside) end() {
	close(a.stop)
	a.all.Wait()
}
