// Package sheets makes the lists that people on site work by: the run sheet of a
// day by crew, the look-ahead, the gate list, the appointments and the hand-over
// list. It computes no schedule: every date in them is the programme's, or has
// happened.
package sheets
