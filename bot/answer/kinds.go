package answer

// Kind has the properties of a kind of thing behind the board.
type Kind struct {
	NeedsRoom  bool // it passes through the board and cannot sit on a support
	AfterPaint bool // its hole is cut after the ceiling is painted, not while hanging (common practice, no source)
	Buried     bool // it has to stay accessible: junction boxes by NEC 314.29, valves and cleanouts likewise
	Electric   bool // a wire leads to the opening
	Framed     bool // an opening in the framing itself: boards are cut out around it and never cover it
}

var kindsOfThing = map[string]Kind{
	"door":         {Framed: true},
	"window":       {Framed: true},
	"skylight":     {Framed: true},
	"light":        {NeedsRoom: true, AfterPaint: true, Electric: true},
	"duct":         {NeedsRoom: true},
	"vent":         {NeedsRoom: true},
	"fan":          {NeedsRoom: true, Electric: true},
	"speaker":      {NeedsRoom: true, Electric: true},
	"hatch":        {NeedsRoom: true},
	"sprinkler":    {NeedsRoom: true},
	"box":          {Electric: true},
	"outlet":       {Electric: true},
	"switch":       {Electric: true},
	"smoke alarm":  {Electric: true},
	"camera":       {Electric: true},
	"detector":     {Electric: true},
	"junction box": {Electric: true, Buried: true},
	"thermostat":   {Electric: true},
	"low voltage":  {Electric: true},
	"valve":        {Buried: true},
	"cleanout":     {Buried: true},
}

// KindOf returns the properties of a kind, the zero value if it is not listed.
func KindOf(what string) Kind { return kindsOfThing[what] }
