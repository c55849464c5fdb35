// Package sketch draws a surface of a room: a plan to scale, with what is on it, and the boards still to be
// cut. [Plan] and [Lists] lay a scene out on pages, which are written as PNG, SVG or PDF.
//
// The lines follow drafting practice: a thick outline (ISO 128-2 type 01.2), thin lines for visible edges
// (01.1), short dashes for hidden edges (02.1), long dash and dot for centre lines (04.1), and dimensions on
// thin lines between arrows (ISO 129-1); these line types are from memory. Nothing is told apart by colour
// alone.
package sketch
