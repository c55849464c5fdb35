package chat

import "time"

// Hurried returns cfg with short waits between tries, for tests in real time.
func Hurried(cfg Config) Config {
	cfg.pace = pace{first: 5 * time.Millisecond, most: 200 * time.Millisecond}
	return cfg
}
