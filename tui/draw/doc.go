// Package draw turns a programme into frames of text: data, a size and a theme
// in, a string out. Pages come as documents, which it lays out. It knows nothing of
// keys, messages or the terminal, and it computes no schedule.
//
// Every frame is exactly as high as asked and no line is wider than asked,
// whatever the names in the plan hold. Meaning is carried by shape first, so a
// frame without a theme reads the same.
package draw
