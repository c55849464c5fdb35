package sketch

// RunWidth is the width of a run's own line, which no other line has.
const RunWidth = runWidth

// SoughtWidth is the width of the ring around what was looked for.
const SoughtWidth = soughtWidth
