// Package figure draws the figures of crossgrain's reports: plain series in, SVG and PNG out.
//
// # Manner
//
// Each figure is an input struct with a method Draw. Its title is the question it answers; things
// are named where they stand, not in a legend; the sentence beneath is made from the same numbers.
// The drawings read in grey and by colour-blind eyes: a colour never stands without a second sign
// (a dash, a hatch, a shape). Lines are at least 0.5 pt, text at least 8 pt, at 170 mm width.
//
// # Input
//
// Series are slices of equal length, in the units of their names; RH in per cent. NaN is a gap. An
// empty or broken series gives a figure that says so in words, never a panic: what a drawing cannot
// show is left out. Names too long for their place are cut with an ellipsis.
//
// # Output
//
// [Figure.SVG] is ready to stand in a page, under a heading of the page's own: its letters are text,
// set in Liberation Sans (see [FontCSS]). [Figure.PNG] and [Figure.File] carry the title in the
// drawing. The same input gives the same bytes.
//
// The canvases, lengths and fonts are those of gonum.org/v1/plot; the axes and the placing of labels
// are this package's own, because a label must know what lies around it.
package figure
