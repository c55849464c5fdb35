package event

// Checked changes one check of a room's checklist. State is "ok", "failed", "waived" or "add".
type Checked struct {
	Room   string `json:"room"`
	What   string `json:"what"`
	State  string `json:"state"`
	Reason string `json:"reason,omitempty"`
}

func (Checked) Kind() string { return "check" }
func (b Checked) In() string { return b.Room }

// Coat is a coat of compound. Temp is in degrees Fahrenheit, RH in percent; nil means not said.
type Coat struct {
	Room string   `json:"room"`
	N    int      `json:"n"`
	Temp *float64 `json:"f,omitempty"`
	RH   *float64 `json:"rh,omitempty"`
	Damp bool     `json:"damp,omitempty"`
}

func (Coat) Kind() string { return "coat" }
func (b Coat) In() string { return b.Room }

// Painted says that a room is painted, so what was due after paint is due now.
type Painted struct {
	Room string `json:"room"`
}

func (Painted) Kind() string { return "painted" }
func (b Painted) In() string { return b.Room }

// Note is free text; Room is "" for the whole job.
type Note struct {
	Room string `json:"room,omitempty"`
	Text string `json:"text"`
}

func (Note) Kind() string { return "note" }
func (b Note) In() string { return b.Room }

// Snag is a defect, open until a SnagFixed names its seq, unless it was told as mended.
type Snag struct {
	Room  string `json:"room,omitempty"`
	Text  string `json:"text"`
	Fixed bool   `json:"fixed,omitempty"`
}

func (Snag) Kind() string { return "snag" }
func (b Snag) In() string { return b.Room }

// SnagFixed says that the snag of entry Seq is fixed.
type SnagFixed struct {
	Seq uint64 `json:"seq"`
}

func (SnagFixed) Kind() string { return "fixed" }
func (SnagFixed) In() string   { return "" }

// Hit says that a screw or a cutter hit a pipe, a wire or gas.
type Hit struct {
	Room string `json:"room,omitempty"`
	What string `json:"what"`
}

func (Hit) Kind() string { return "hit" }
func (b Hit) In() string { return b.Room }

// Photo attaches pictures to entry Of.
type Photo struct {
	Room  string   `json:"room,omitempty"`
	Of    uint64   `json:"of"`
	Links []string `json:"links"`
	Post  string   `json:"post,omitempty"` // id of the message that brought them; missing in older logs
}

func (Photo) Kind() string { return "photo" }
func (b Photo) In() string { return b.Room }

// UndoSkips is as for PlanPick.
func (Photo) UndoSkips() bool { return true }

// Strike strikes an entry. Striking a strike restores what it struck.
type Strike struct {
	Seq  uint64 `json:"seq"`
	Undo bool   `json:"undo,omitempty"` // made by undo, of the sender's own last entry
}

func (Strike) Kind() string { return "strike" }
func (Strike) In() string   { return "" }

// UndoSkips is as for PlanPick.
func (b Strike) UndoSkips() bool { return b.Undo }
