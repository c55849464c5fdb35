package job

import (
	"time"

	"strapline/bot/say"
	"strapline/calc/inforce"
	"strapline/calc/site"
)

// At is the job as it stood after entry seq, read from the log beside the writer; 0
// is as it stands. The plans may work, and keep what they plan for all.
func (j *Job) At(seq uint64) (*site.State, *inforce.Plans, error) {
	st := site.New()
	if err := replay(st, j.log.Load(), seq); err != nil {
		return nil, nil, err
	}
	return st, &inforce.Plans{State: st, Kept: j.layouts, Work: &inforce.Work{Steps: inforce.MessageSteps, Here: true}}, nil
}

// Speech is how the job is spoken of at a time.
func (j *Job) Speech(st *site.State, now time.Time) say.Speech {
	return say.Speech{Units: st.Units(), Loc: j.opt.Loc, Now: now}
}
