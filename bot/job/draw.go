package job

import (
	"io"
	"time"

	"strapline/bot/message"
	"strapline/bot/say"
	"strapline/calc/inforce"
	"strapline/calc/site"
	"strapline/calc/work"
)

// Draw draws a picture of the job as it was at the time of the picture, as PNG.
type Draw func(w io.Writer, st *site.State, plans *inforce.Plans, speech say.Speech, p message.Picture) error

// Picture writes a picture that goes with an answer, as PNG, with the same bytes each time.
func (j *Job) Picture(w io.Writer, p message.Picture) error {
	st, plans, err := j.At(p.Entry)
	if err != nil {
		return err
	}
	return j.opt.Draw(w, st, plans, j.Speech(st, time.UnixMilli(p.At)), p)
}

// At returns the job as it was after entry seq, or as it is now if seq is 0. It reads the log without
// holding up the writer.
func (j *Job) At(seq uint64) (*site.State, *inforce.Plans, error) {
	st := site.New()
	if err := replay(st, j.log.Load(), seq); err != nil {
		return nil, nil, err
	}
	return st, j.Plans(st), nil
}

// Plans returns the plans of a state that the caller owns. They may use the budget of one message, and
// what they plan is cached for everyone.
func (j *Job) Plans(st *site.State) *inforce.Plans {
	return &inforce.Plans{State: st, Kept: j.layouts, Work: &inforce.Work{Budget: work.Budget{Steps: inforce.MessageSteps}, Here: true}}
}

// Speech returns how the job is worded at a time.
func (j *Job) Speech(st *site.State, now time.Time) say.Speech {
	return say.Speech{Units: st.Units(), Loc: j.opt.Loc, Now: now}
}
