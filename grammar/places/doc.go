// Package places reads where something is: distances and what they are measured from, supports, surfaces.
package places
