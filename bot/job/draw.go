package job

import (
	"io"
	"time"

	"strapline/bot/say"
	"strapline/calc/inforce"
	"strapline/calc/site"
	"strapline/calc/work"
)

// Draw draws a picture, as PNG, of the job as it stood then.
type Draw func(w io.Writer, st *site.State, plans *inforce.Plans, speech say.Speech, p Picture) error

// Picture writes a picture that goes with an answer, as PNG: the same each time.
func (j *Job) Picture(w io.Writer, p Picture) error {
	st, plans, err := j.At(p.Entry)
	if err != nil {
		return err
	}
	return j.opt.Draw(w, st, plans, j.Speech(st, time.UnixMilli(p.At)), p)
}

// At is the job as it stood after entry seq, read from the log beside the writer; 0
// is as it stands.
func (j *Job) At(seq uint64) (*site.State, *inforce.Plans, error) {
	st := site.New()
	if err := replay(st, j.log.Load(), seq); err != nil {
		return nil, nil, err
	}
	return st, j.Plans(st), nil
}

// Plans are those of a state of the job that is the caller's own. They may work as much
// as for one message, beside the writer, and keep what they plan for all.
func (j *Job) Plans(st *site.State) *inforce.Plans {
	return &inforce.Plans{State: st, Kept: j.layouts, Work: &inforce.Work{Budget: work.Budget{Steps: inforce.MessageSteps}, Here: true}}
}

// Speech is how the job is spoken of at a time.
func (j *Job) Speech(st *site.State, now time.Time) say.Speech {
	return say.Speech{Units: st.Units(), Loc: j.opt.Loc, Now: now}
}
