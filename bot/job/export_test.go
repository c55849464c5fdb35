package job

// Alone stops the job's loop and gives what answers a message at its desk, with no
// commit behind it.
func (j *Job) Alone() func(In) (Out, error) {
	close(j.stop)
	<-j.done
	j.stop = make(chan struct{}) // for Jobs.Close, which finds the loop ended
	return func(in In) (Out, error) {
		in.Text, in.Who = Clean(in.Text), Clean(in.Who)
		j.begin()
		j.work = (*planned)(nil).work()
		j.work.Here = true
		return j.handle(in)
	}
}

// Commits is how many transactions were made.
func (j *Job) Commits() int64 { return j.commits.Load() }

// Open is how many jobs are open, with a file or without.
func (js *Jobs) Open() int {
	js.mu.Lock()
	defer js.mu.Unlock()
	return len(js.open)
}

// Planning reports whether an answer is being planned.
func (j *Job) Planning() bool { return len(j.aside.busy) > 0 }

// Lose closes the job's log under it, as a disk that goes away does.
func (j *Job) Lose() error { return j.log.Load().Close() }
