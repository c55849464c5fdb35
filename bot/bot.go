// Package bot puts the house together: the jobs of a data folder, with those who
// answer. Doors hand messages to bot/job and carry its answers; it knows none of
// them, and they know nothing of what an entry means.
package bot

import (
	"io"

	"strapline/bot/answer"
	"strapline/bot/answer/close"
	"strapline/bot/answer/covered"
	"strapline/bot/answer/find"
	"strapline/bot/answer/hang"
	"strapline/bot/answer/log"
	"strapline/bot/answer/note"
	"strapline/bot/answer/plan"
	"strapline/bot/answer/runs"
	"strapline/bot/answer/setup"
	"strapline/bot/answer/sizes"
	"strapline/bot/answer/stock"
	"strapline/bot/answer/told"
	"strapline/bot/job"
	"strapline/bot/message"
	"strapline/bot/say"
	"strapline/bot/scene"
	"strapline/bot/sketch"
	"strapline/calc/inforce"
	"strapline/calc/site"
)

// Options of the jobs; see [job.Options]. Kinds and Draw are set here.
type Options = job.Options

// New opens a data folder, and makes it if it is not there.
func New(opt Options) (*job.Jobs, error) {
	opt.Kinds, opt.Draw = Kinds(), draw
	return job.New(opt)
}

// Kinds is everybody who answers.
func Kinds() answer.Kinds {
	k := answer.Kinds{}
	for _, register := range []func(answer.Kinds){
		setup.Register, note.Register, runs.Register, find.Register, hang.Register, covered.Register, sizes.Register, plan.Register, stock.Register, close.Register, log.Register, told.Register,
	} {
		register(k)
	}
	return k
}

// draw draws a picture that goes with an answer.
func draw(w io.Writer, st *site.State, plans *inforce.Plans, speech say.Speech, p message.Picture) error {
	s, err := scene.Room(st, plans, p.Room, answer.SurfaceOf(p.On), speech, p.Up)
	if err != nil {
		return err
	}
	s.Seek(p.Sought)
	return sketch.Write(w, s, ".png", p.Cuts)
}
