package bot_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
)

// phrasing puts facts into words.
type phrasing struct{ *rand.Rand }

// The sides of the kitchen, in inches.
const kitchenEW, kitchenNS = 170, 141

// one picks one of the words, which | separates; some of them may be nothing.
func (p *phrasing) one(words string) string {
	all := strings.Split(words, "|")
	return all[p.IntN(len(all))]
}

var (
	units = strings.Fields("- one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen")
	tens  = strings.Fields("- - twenty thirty forty fifty sixty seventy eighty ninety")
)

func (p *phrasing) words(n int) string {
	switch {
	case n < 20:
		return units[n]
	case n >= 100:
		return strings.TrimSuffix("one hundred and "+p.words(n-100), " and -")
	case n%10 == 0:
		return tens[n/10]
	}
	return tens[n/10] + p.one(" |-") + units[n%10]
}

// length is a length between two numbers of inches, in quarters, as people write and speak it, and how many inches it is.
func (p *phrasing) length(from, to int) (said string, inches float64) {
	n, q := from+p.IntN(to-from), 0
	if p.IntN(3) == 0 {
		q = 1 + p.IntN(3)
	}
	part, spoken := []string{"", " 1/4", " 1/2", " 3/4"}[q], []string{"", " and a quarter", " and a half", " and three quarters"}[q]
	inches = float64(n) + float64(q)/4
	switch style := p.IntN(7); {
	case style == 0 && q == 0:
		return fmt.Sprintf("%d\"", n), inches
	case style == 1:
		return p.words(n) + spoken, inches
	case style == 2:
		return fmt.Sprintf("%d%s %s", n, part, p.one("in|inches|inch")), inches
	case style == 3 && n > 12:
		return fmt.Sprintf("%d'%d%s", n/12, n%12, part) + p.one("|\""), inches
	case style == 4 && n > 12 && n%12 > 0:
		return fmt.Sprintf("%d %s %d%s", n/12, p.one("ft|foot|feet"), n%12, part), inches
	}
	return fmt.Sprintf("%d%s", n, part), inches
}

func (p *phrasing) wall(w string) string {
	return fmt.Sprintf(p.one("the %s wall|the %s|%s|%s wall|the %s side"), w)
}

// off is a distance off one of two walls that face each other.
func (p *phrasing) off(walls string, side float64, most int) (said string, at float64) {
	w := p.one(walls)
	far, inches := p.length(8, most)
	if said = far + p.one(" off | from | in from | out from | off of | away from | to | back from ") + p.wall(w); w == "east" || w == "south" {
		inches = side - inches
	}
	return said, inches * 25.4
}

func (p *phrasing) opening() string {
	return p.one("||ok |so |got a |there's a |set the |new |one |a |i set a |need a |just put in a |we got one |add a |the |roughed in a |hey |and a |mark a |kitchen: |in the kitchen a |theres one ")
}

func (p *phrasing) remark() string {
	return p.one("||||" + " to center| on center|, dont cover it| thats to centre|. for the island| roughly| thx|, its wired| measured twice| ok?| in the kitchen| for the fan later|, all good| before the board goes up| so keep screws away|, metal box")
}

// both joins two parts of a place, in either order.
func (p *phrasing) both(a, b, with string) string {
	if p.IntN(2) == 0 {
		a, b = b, a
	}
	return a + p.one(with) + b
}

func (p *phrasing) onCeiling() (string, []fact) {
	x, atX := p.off("east|west", kitchenEW, 90)
	y, atY := p.off("north|south", kitchenNS, 90)
	what := p.one("light|pot light|pot|recessed light|downlight|ceiling light|smoke alarm|smoke detector|fan|bath fan|vent|register|diffuser|ceiling box|junction box|j-box|box|sprinkler head|speaker")
	return p.opening() + what + p.one(" | | | is | at | goes |: |, | sits | is at | will be | roughed in | comes out ") + p.both(x, y, ", | and | | by | x |, and | & | then ") + p.remark(), []fact{{x: atX, y: atY}}
}

func (p *phrasing) onWall() (string, []fact) {
	on := p.one("north|south|east|west")
	walls, side := "east|west", float64(kitchenEW)
	if on == "east" || on == "west" {
		walls, side = "north|south", kitchenNS
	}
	along, x := p.off(walls, side, 90)
	far, y := p.length(10, 60)
	place := p.both(strings.Replace(along, " to ", " off ", 1), far+p.one(" up| high| off the floor| up from the floor| above the floor| hi"), ", | and ")
	what, wall := p.one("outlet|receptacle|plug|switch|light switch|thermostat|tstat|box|sconce"), p.one("on the |in the |on ")+on+" wall"
	switch p.IntN(3) {
	case 0:
		what = p.opening() + what + " " + wall + p.one(" |, ") + place
	case 1:
		what = p.opening() + what + p.one(" |, ") + place + p.one(" |, ") + wall
	default:
		what = wall + p.one(", | |: ") + what + " " + place
	}
	return what + strings.Replace(p.remark(), " to center", "", 1), []fact{{surface: on, x: x, y: y * 25.4}}
}

func (p *phrasing) room() (string, []fact) {
	a, ew := p.length(60, 200)
	b, ns := p.length(50, 200)
	text := p.one("|||ok |room |the |so the |ok next room, |measured the |we're in the |starting the |got the |new room ") + p.one("bedroom|hall|bath|den|dining room|back bedroom|laundry|closet|master bedroom|entry") +
		p.one(" | is |: |, | measures | comes out ") + a + p.one(" x | by | X ") + b
	if p.IntN(3) == 0 {
		h := 84 + p.IntN(36)
		text += p.one(", | | and ") + p.one(fmt.Sprintf("%d'%d high|%d' %d ceiling|%d foot %d ceiling|ceiling %d' %d", h/12, h%12, h/12, h%12, h/12, h%12, h/12, h%12))
	}
	return text + p.one("||||. no strapping yet| thx|, measured twice| all square"), []fact{{sides: [2]float64{ew * 25.4, ns * 25.4}}}
}

func (p *phrasing) boards() (string, []fact) {
	came := map[int]int{}
	item := func() string {
		n, l := 2+p.IntN(30), 8+2*p.IntN(4)
		for came[l] > 0 {
			l = 8 + 2*p.IntN(4)
		}
		came[l] = n
		return fmt.Sprintf(p.one("%s 4x%d|%s %ds|%s sheets of %d'|%s %d footers|%s boards %d'|%s %d foot boards"), p.one(fmt.Sprintf("%d|%d|%s", n, n, p.words(n))), l)
	}
	text := p.one("||ok |so ") + p.one("delivered |delivery: |got |boards came: |truck dropped |they brought |we have |we got |just got |just came: |received ") + item()
	if p.IntN(2) == 0 {
		text += p.one(" and |, | plus | + ") + item()
	}
	all := map[int]int{}
	for l, n := range came {
		all[l*3048] = n
	}
	return text + p.one("||| in the garage| this morning|, all half inch|, half inch| today| 5/8|, stacked in the hall"), []fact{{boards: all}}
}

// fix puts l9 right, which is 50 off west, 40 off north.
func (p *phrasing) fix() (string, []fact) {
	walls, side := "east|west", float64(kitchenEW)
	if p.IntN(2) == 0 {
		walls, side = "north|south", kitchenNS
	}
	far, at := p.off(walls, side, 90)
	far = strings.Replace(far, " to ", " off ", 1)
	f := fact{x: 50 * 25.4, y: 40 * 25.4}
	if walls == "east|west" {
		f.x = at
	} else {
		f.y = at
	}
	text := fmt.Sprintf(p.one("%s should be %s|%s moved to %s|sorry %s is %s|correction %s %s|move %s to %s|%s is wrong its %s|actually %s is %s|i measured %s wrong, it's %s|change %s to %s|my bad, %s is %s|%s was %s sorry|fix %s %s|no wait %s is %s|make %s %s|%s is off by a bit, should be %s|%s now %s"), p.one("l9|l9|light l9|light 9"), far)
	return text + p.one("||| thx|, sorry| i misread the tape"), []fact{f}
}

// several is two to four lights in a row, or two with places of their own.
func (p *phrasing) several() (string, []fact) {
	what := p.one("lights|pots|pot lights|cans|downlights")
	n := 2 + p.IntN(3)
	count := p.one(fmt.Sprintf("|%d |%s ", n, p.words(n)))
	x, y := p.one("east|west"), p.one("north|south")
	alongX := p.IntN(2) == 0
	if !alongX {
		x, y = y, x
	}
	shared, at := p.length(8, 60)
	said, places := []string{}, []float64{}
	first, pitch := 10+p.IntN(10), 12+p.IntN(24)
	for i := range n {
		far := first + i*pitch
		said = append(said, fmt.Sprint(far))
		places = append(places, float64(far))
	}
	list := strings.Join(said[:n-1], p.one(", | |,")) + p.one(" and |, | & ") + said[n-1]
	if p.IntN(3) == 0 {
		list = strings.Join(said, p.one(" and |, "))
	}
	off := p.one(" off | from | off of | in from ")
	row := fmt.Sprintf(p.one("%s%s%s"), shared, off, p.wall(y))
	var text string
	switch p.IntN(4) {
	case 0:
		text = count + what + p.one(" |, | at ") + list + off + p.wall(x) + p.one(", all | all |, ") + row
	case 1:
		text = count + what + p.one(" |, | at ") + row + p.one(", |: | at ") + list + off + p.wall(x)
	case 2:
		count = fmt.Sprintf("%d ", n)
		text = count + what + " " + row + fmt.Sprintf(p.one(", first %d off %s then every %d|, first one %d off the %s wall then %d apart|, starting %d off %s every %d|, the first %d off the %s, %d apart"), first, x, pitch)
	default:
		text = what + " " + row + p.one(", |: ")
		each := []string{}
		for _, s := range said {
			each = append(each, fmt.Sprintf(p.one("one at %s"), s)+off+p.wall(x))
		}
		text += strings.Join(each, p.one(", | and |, and "))
	}
	var all []fact
	for _, f := range places {
		one := fact{x: inches(x, f), y: inches(y, at)}
		if !alongX {
			one = fact{x: inches(y, at), y: inches(x, f)}
		}
		all = append(all, one)
	}
	return text + p.one("||| thx|, all wired"), all
}

// inches is how many millimetres a place off a wall of the kitchen is off the west or the north one.
func inches(wall string, off float64) float64 {
	switch wall {
	case "east":
		off = kitchenEW - off
	case "south":
		off = kitchenNS - off
	}
	return off * 25.4
}

// framing is straps or joists of the ceiling.
func (p *phrasing) framing() (string, []fact) {
	run, wall := "east-west", p.one("north|south")
	if p.IntN(2) == 0 {
		run, wall = "north-south", p.one("east|west")
	}
	f := fact{run: map[string]string{"east-west": "ew", "north-south": "ns"}[run]}
	spacing := []int{12, 16, 24}[p.IntN(3)]
	first, at := p.length(4, 20)
	f.spacing = float64(spacing) * 25.4
	if f.first = inches(wall, at); wall == "east" || wall == "south" {
		f.spacing = -f.spacing
	}
	f.spacing = math.Abs(f.spacing)
	what := p.one("straps|strapping|joists|furring|strapped|strapping is|straps are")
	direction := p.one(run + "|running " + run + "|run " + strings.ReplaceAll(run, "-", " ") + "|going " + run + "|" + f.run + "|running " + strings.ReplaceAll(run, "-", " to "))
	at16 := fmt.Sprintf(p.one("%d oc|%d on centre|%d o.c.|%d\" oc|at %d oc|%d on center|%d inch centres|%ds"), spacing)
	begin := p.one("first |first one |starts |starting |first at ") + first + p.one(" off | from ") + p.wall(wall)
	parts := []string{what + " " + direction, at16, begin}
	if p.IntN(2) == 0 {
		parts = []string{what + " " + at16, direction, begin}
	}
	return p.one("||ok |kitchen: |the ") + strings.Join(parts, p.one(" |, |, ")) + p.one("||| thx|, all nailed"), []fact{f}
}

// run is a pipe, a duct or a wire from wall to wall.
func (p *phrasing) run() (string, []fact) {
	what := p.one("pipe|duct|wire|water line|drain|gas line|cable|vent pipe|heat duct|romex")
	f := fact{is: "run"}
	along, wall := p.one("east-west|east to west|west to east|ew"), p.one("north|south")
	far, at := p.length(10, 60)
	if p.IntN(2) == 0 {
		along, wall = p.one("north-south|north to south|south to north|ns"), p.one("east|west")
		f.x, f.from = inches(wall, at), [2]float64{inches(wall, at), 0}
		f.y = kitchenNS * 25.4
	} else {
		f.y, f.from = inches(wall, at), [2]float64{0, inches(wall, at)}
		f.x = kitchenEW * 25.4
	}
	place := far + p.one(" off | from | in from | off of ") + p.wall(wall)
	direction := p.one("running |runs |goes |going |") + along
	text := what + p.one(" |, | runs | is ") + p.both(place, direction, ", | ")
	return p.one("||ok |theres a |got a |kitchen: |the ") + text + p.one("||, wall to wall| wall to wall|, careful|, above the straps"), []fact{f}
}
