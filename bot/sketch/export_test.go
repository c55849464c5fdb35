package sketch

// RunWidth is the line width of a run, which no other line has.
const RunWidth = runWidth

// SoughtWidth is the line width of the ring around the thing that was looked for.
const SoughtWidth = soughtWidth
