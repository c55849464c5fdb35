//go:build !race

package job_test

const pooled = true
