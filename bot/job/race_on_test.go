//go:build race

package job_test

// pooled says that pools keep what they are given. Under the race detector they drop it at random, and memory tells
// nothing.
const pooled = false
