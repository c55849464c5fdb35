package page

import (
	"context"
	"time"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/site"
)

// Take gives a page to each job that is open, as Serve does.
func (s *Server) Take(ctx context.Context) { s.take(ctx, "") }

// Board works out how a job stands, as a view of it does.
func Board(st *site.State) {
	boardOf(answer.Ctx{Speech: say.Speech{Units: st.Units(), Loc: time.UTC}, State: st}, "")
}
