package bot_test

import (
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const module = "strapline/"

// may says, for each folder of the house, which others it may import directly;
// a folder below one of them follows its rule unless it has its own.
var may = map[string][]string{
	"cmd/strapline":   {"cmd/cli", "bot", "bot/message", "bot/job", "bot/console", "bot/scene", "bot/sketch", "store"},
	"cmd/straplined":  {"cmd/cli", "bot", "bot/message", "bot/job", "bot/wire", "bot/chat", "bot/page"},
	"cmd/cli":         {"bot/job", "store"},
	"bot":             {"bot/message", "bot/job", "bot/answer", "bot/say", "bot/scene", "bot/sketch", "calc"},
	"bot/message":     {"calc/place"},
	"bot/pending":     {"bot/answer", "bot/say", "grammar", "grammar/"},
	"bot/ledger":      {"bot/message", "bot/pending", "bot/answer", "bot/say", "grammar", "calc", "store"},
	"bot/turn":        {"bot/message", "bot/ledger", "bot/pending", "bot/answer", "bot/say", "grammar", "grammar/", "calc"},
	"bot/desk":        {"bot/message", "bot/ledger", "bot/turn", "bot/pending", "bot/answer", "bot/say", "grammar", "grammar/", "calc", "store"},
	"bot/job":         {"bot/message", "bot/ledger", "bot/desk", "bot/answer", "bot/say", "calc", "store"}, // it reads no message
	"bot/answer":      {"bot/message", "bot/answer", "bot/say", "grammar", "grammar/", "calc"},
	"bot/say":         {"calc"},
	"bot/sheet":       {},
	"bot/scene":       {"bot/say", "calc"},
	"bot/sketch":      {"bot/scene", "bot/sheet", "bot/say", "calc"},
	"bot/page":        {"bot/message", "bot/job", "bot/answer", "bot/say", "bot/scene", "bot/sketch", "calc"}, // a door that shows the state: it reads, says and draws it in the same way
	"bot/chat/server": {"bot/backoff"},                                                                        // it knows no jobs
	"bot/chat/markup": {"bot/message"},
	"bot/doortest":    {"bot/console"}, // in tests alone
	"bot/backoff":     {},
	"bot/":            {"bot/message", "bot/job", "bot/backoff"}, // a door knows the jobs and no other door
	"grammar/lex":     {"grammar/quantity", "grammar/measure", "calc/length", "calc/place"},
	"calc":            {"calc"},
	"calc/length":     {},
	"calc/simplex":    {},
	"calc/place":      {"calc/length"},
	"calc/event":      {"calc/length", "calc/place"}, // what a log holds, whatever is made of it
	"calc/square":     {"calc/length", "calc/place", "calc/slip"},
	"calc/history":    {"calc/event"},
	"calc/stock":      {"calc/length", "calc/place", "calc/event", "calc/history"},
	"calc/frame":      {"calc/length", "calc/place", "calc/event", "calc/history", "calc/square", "calc/shell"}, // a room as it is built
	"calc/shell":      {"calc/length", "calc/place", "calc/event", "calc/square"},                               // a room as it stands, without its history
	"store":           {},
}

// layers are the packages of the language from the bottom to the top: each may import those before it.
var layers = strings.Fields(`calc/length calc/place grammar/quantity grammar/measure grammar/lex grammar/topic grammar/pattern grammar/canon grammar grammar/read grammar/numbers grammar/places
	grammar/boards grammar/rooms grammar/things grammar/hanging grammar/record grammar/amend grammar/relate grammar/wording grammar/unread grammar/question
	grammar/speech grammar/parts grammar/clause grammar/spots grammar/sense grammar/shell grammar/rough grammar/missing grammar/said grammar/deliveries grammar/boarding grammar/sentences grammar/phrase grammar/landmark grammar/parse`)

// impure are packages that calc may not use: no clock, no I/O, no logging, no
// parser. (time.Duration is a number; time.Now is looked for in the sources.)
var impure = []string{"os", "io/fs", "net", "net/http", "log", "log/slog", "bufio", "os/exec", "path/filepath"}

func rule(pkg string) ([]string, bool) {
	if list, ok := may[pkg]; ok {
		return list, true
	}
	if i := slices.Index(layers, pkg); i >= 0 {
		return layers[:i], true
	}
	if strings.HasPrefix(pkg, "bot/answer/") {
		return may["bot/answer"], true
	}
	if strings.HasPrefix(pkg, "bot/") {
		return may["bot/"], true
	}
	top, _, _ := strings.Cut(pkg, "/")
	list, ok := may[top]
	return list, ok
}

func allowed(list []string, dep string) bool {
	return slices.ContainsFunc(list, func(p string) bool {
		return dep == p || strings.HasPrefix(dep, strings.TrimSuffix(p, "/")+"/") && p != "bot" && p != "bot/job" && p != "grammar"
	})
}

// Imports point one way: cmd -> bot/door -> bot -> grammar, calc, store.
func TestImportsPointOneWay(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}}:{{join .Imports " "}}`, "../...").Output()
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(out)) {
		pkg, imports, _ := strings.Cut(strings.TrimSpace(line), ":")
		pkg = strings.TrimPrefix(pkg, module)
		list, known := rule(pkg)
		if !known {
			t.Errorf("%s has no place in the house", pkg)
		}
		for _, dep := range strings.Fields(imports) {
			own, ours := strings.CutPrefix(dep, module)
			switch {
			case ours && own != pkg && !allowed(list, own) && !strings.HasPrefix(own, pkg+"/"):
				t.Errorf("%s imports %s", pkg, own)
			case strings.HasPrefix(pkg, "calc/") && (slices.Contains(impure, dep) || strings.Contains(dep, ".")):
				t.Errorf("%s imports %s: calc is pure", pkg, dep)
			case strings.HasPrefix(pkg, "grammar") && slices.Contains(impure, dep):
				t.Errorf("%s imports %s", pkg, dep)
			case strings.Contains(dep, "mattermost") && !strings.HasPrefix(pkg, "bot/chat"):
				t.Errorf("%s imports %s: only bot/chat may", pkg, dep)
			}
		}
	}
}

// The first command of the README is built from nothing: it takes along no door that it
// does not use, and nothing that such a door is made of.
func TestStraplineIsSmall(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "../cmd/strapline").Output()
	if err != nil {
		t.Fatal(err)
	}
	for dep := range strings.Lines(string(out)) {
		dep = strings.TrimSpace(dep)
		own := strings.TrimPrefix(dep, module)
		if strings.HasPrefix(own, "bot/chat") || strings.HasPrefix(own, "bot/wire") || strings.Contains(dep, "mattermost") || strings.Contains(dep, "websocket") ||
			dep == "net/http" {
			t.Errorf("cmd/strapline takes %s along", dep)
		}
	}
}

func TestNoClockInCalc(t *testing.T) {
	for _, dir := range []string{"../calc", "../grammar"} {
		out, _ := exec.Command("grep", "-rnE", `\btime\.(Now|Since|Sleep|After)|\bos\.`, "--include=*.go", "--exclude=*_test.go", dir).Output()
		if len(out) > 0 {
			t.Errorf("a clock or the system in %s:\n%s", dir, out)
		}
	}
}

// Folders that hold jobs are made by the store, which makes their names durable.
func TestFoldersAreMadeDurable(t *testing.T) {
	out, _ := exec.Command("grep", "-rnE", `os\.Mkdir(All)?\(`, "--include=*.go", "--exclude=*_test.go", "--exclude-dir=store", "--exclude-dir=console", "..").Output()
	if len(out) > 0 {
		t.Errorf("a folder whose name a power cut may take:\n%s", out)
	}
}

// Files and packages stay short enough to read; tests do not count for a package.
func TestFilesAreShort(t *testing.T) {
	const mostOfFile, mostOfPackage = 500, 1500
	packages := map[string]int{}
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(path) != ".go" {
			return err
		}
		data, err := os.ReadFile(path)
		n := strings.Count(string(data), "\n")
		if n > mostOfFile {
			t.Errorf("%s has %d lines, the most is %d", path, n, mostOfFile)
		}
		if !strings.HasSuffix(path, "_test.go") {
			packages[filepath.Dir(path)] += n
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	for dir, n := range packages {
		if n > mostOfPackage && dir != "../calc/layout" { // the search of a layout, in one room so that it can be proven
			t.Errorf("%s has %d lines, the most is %d", dir, n, mostOfPackage)
		}
	}
}
