package job

import (
	"context"
	"maps"

	"strapline/bot/ledger"
	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/calc/event"
	"strapline/calc/site"
)

// Knows is what a job knows of what was said, as it reads it again from its log.
func (j *Job) Knows() (all struct {
	State    *site.State
	Pending  map[string]*pending.Question
	Pictures map[string][]ledger.Waiting
	Edits    map[string][]string
	Asked    map[string][]ledger.Asked
	Answers  map[string]string
}) {
	_ = j.Look(context.Background(), func(st *site.State) {
		m := j.desk.Memory
		all.State, all.Pending, all.Pictures, all.Edits, all.Asked, all.Answers = st, maps.Clone(m.Pending), maps.Clone(m.Pictures), maps.Clone(m.Edits), maps.Clone(m.Asked), maps.Clone(m.Answers)
	})
	maps.DeleteFunc(all.Pictures, func(_ string, waiting []ledger.Waiting) bool { return len(waiting) == 0 })
	_ = all.State.Apply(event.Event{Seq: uint64(len(all.State.Entries)) + 1, Body: event.Note{}}) // places that were asked for are kept until the next entry
	return all
}

// Alone stops the job's loop and gives what answers a message at its desk, with no
// commit behind it.
func (j *Job) Alone() func(message.In) (message.Out, error) {
	j.end()
	j.writer, j.stop, j.done, j.aside = make(chan struct{}, 1), make(chan struct{}), make(chan struct{}), newAside() // for Jobs.Close
	return func(in message.In) (message.Out, error) {
		in.Text, in.Who = message.Clean(in.Text), message.Clean(in.Who)
		j.desk.Begin()
		spend := (*planned)(nil).work()
		spend.Here = true
		out, _, err := j.desk.Answer(in, spend, -1)
		return out, err
	}
}

// Waits is what the open questions of the sender are about, and what waits for them.
func (j *Job) Waits(who string) (all []string) {
	for q := j.desk.Pending[who]; q != nil; q = q.Under {
		all = append(all, q.Said, q.Rest)
	}
	return all
}

// Commits is how many transactions were made.
func (j *Job) Commits() int64 { return j.commits.Load() }

// Open is how many jobs are open, with a file or without.
func (js *Jobs) Open() int {
	js.mu.Lock()
	defer js.mu.Unlock()
	return len(js.open)
}

// Planning reports whether an answer is being planned.
func (j *Job) Planning() bool { return len(j.aside.busy) > 0 }

// Lose closes the job's log under it, as a disk that goes away does.
func (j *Job) Lose() error { return j.log.Load().Close() }

// State is the state at the desk.
func (j *Job) State() *site.State { return j.desk.State }
