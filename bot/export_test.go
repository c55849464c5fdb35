package bot

import "strapline/calc/site"

// State is the job's live state, for tests that compare it with a replay.
func (j *Job) State() *site.State { return j.state }

// Commits is how many transactions the job has made.
func (j *Job) Commits() int64 { return j.commits.Load() }
