package page

import (
	"context"
	"fmt"
	"net/http"
	"time"

	"strapline/bot/job"
)

// stream sends the number of the last entry as server-sent events: at once, after each
// new entry, and every Limits.Beat to keep the connection alive.
func (s *Server) stream(w http.ResponseWriter, r *http.Request, j *job.Job) {
	select {
	case s.live <- struct{}{}:
		defer func() { <-s.live }()
	default:
		w.Header().Set("Retry-After", "30")
		plain(w, http.StatusServiceUnavailable, "Too many people are watching. The page itself can still be reloaded.")
		return
	}
	w.Header().Set("Content-Type", "text/event-stream")
	w.Header().Set("X-Accel-Buffering", "no") // tells a proxy not to buffer it
	if r.Method == http.MethodHead {
		return
	}
	lim := s.cfg.Limits
	ctx, cancel := context.WithTimeout(r.Context(), lim.Stay)
	defer cancel()
	line := http.NewResponseController(w)
	var told uint64
	send := func() error {
		told = j.Figures().Last
		_ = line.SetWriteDeadline(time.Now().Add(lim.Write)) // real time, not the bot's clock
		if _, err := fmt.Fprintf(w, "data: %d\n\n", told); err != nil {
			return err
		}
		return line.Flush()
	}
	news, end := j.Watch(1)
	defer func() { end() }()
	beat := time.NewTicker(lim.Beat)
	defer beat.Stop()
	pause := time.NewTimer(0)
	defer pause.Stop()
	for send() == nil {
		pause.Reset(lim.Gather)
		select {
		case <-pause.C:
		case <-ctx.Done():
			return
		}
		for quiet := true; quiet; {
			select {
			case _, on := <-news:
				if !on { // more entries came during the pause than the watch holds; the last number covers them
					news, end = j.Watch(1)
				}
				quiet = j.Figures().Last == told
			case <-beat.C:
				quiet = false
			case <-ctx.Done():
				return
			}
		}
	}
}
