package bot

import "strapline/calc/site"

// State is the job's live state, for tests that compare it with a replay.
func (j *Job) State() *site.State { return j.state }
