// Package rooms has the kinds about a room: its sides, its shape, its floor, its supports and its true corners.
package rooms
