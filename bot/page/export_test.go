package page

import "context"

// AddPages gives a page to each open job, as Serve does.
func (s *Server) AddPages(ctx context.Context) { s.addPages(ctx, "") }
