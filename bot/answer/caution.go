package answer

// All the cautions, given where the work can hurt and nowhere else. Each defers to local code or to the
// licensed trade; none names a value that a code sets.
const (
	CautionScrew = "Look for pipe and wire before you screw: only what was noted is known here, and local code rules"

	// CheckWeight goes with an answer on what something heavy may hang from.
	CheckWeight  = "board alone holds little: go into the framing or the backing; what that carries, ask who built it, and local code"
	CautionReach = "only what was noted; local code and the licensed trade have the last word"
	CautionReady = "local code and the inspector have the last word"
	CautionWire  = "Power off and tested dead before you cut; wiring is the electrician's, by local code"
	CautionCut   = "Cut no deeper than the board, eyes covered; local code first"
	CautionOld   = "Before cutting or sanding old ceilings and paint have them tested for asbestos and lead; local code rules"
	CautionFloor = "spread them, and by local code ask before loading an old or cut floor"

	CautionWater = "leave the screw in until the main is off. Then call the plumber"
	CautionCable = "breaker off and locked, then open it up. The electrician repairs it, by local code"
	CautionGas   = "everybody out, no switches, shut off outside if you can, call the gas company from outside"

	CautionNearWire = "Power off and tested dead first; local code and the electrician decide"
	CautionNearGas  = "Keep off; local code and the gas fitter decide"
	CautionNearPipe = "Know where the main is; local code and the plumber decide"
	CautionNearDuct = "Local code decides"
)

// CautionFor returns the caution for cutting a covered thing open.
func CautionFor(what string) string {
	if KindOf(what).Electric {
		return CautionWire
	}
	return CautionCut
}

// CautionNear returns the caution about a run that a screw or cutter comes near.
func CautionNear(what string) string {
	switch what {
	case "wire":
		return CautionNearWire
	case "gas":
		return CautionNearGas
	case "pipe", "heat tube":
		return CautionNearPipe
	}
	return CautionNearDuct
}
