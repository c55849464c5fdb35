module strapline

go 1.26.8

require (
	github.com/alecthomas/kong v1.17.0 // indirect
	github.com/alecthomas/participle/v2 v2.1.4 // indirect
	github.com/google/go-cmp v0.7.0 // indirect
	github.com/mattermost/mattermost/server/public v0.4.3 // indirect
	github.com/rogpeppe/go-internal v1.16.0 // indirect
	go.etcd.io/bbolt v1.5.0 // indirect
	go.uber.org/goleak v1.3.0 // indirect
	golang.org/x/sys v0.50.0 // indirect
	golang.org/x/term v0.48.0 // indirect
	golang.org/x/tools v0.45.0 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)
