package page

import "context"

// Take gives a page to each job that is open, as Serve does.
func (s *Server) Take(ctx context.Context) { s.take(ctx, "") }
