package chat

import "time"

// Hurried is cfg with tries in quick succession, for tests in real time.
func Hurried(cfg Config) Config {
	cfg.pace = pace{first: 5 * time.Millisecond, most: 200 * time.Millisecond}
	return cfg
}
