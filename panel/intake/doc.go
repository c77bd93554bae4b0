// Package intake turns a list of panels, as registrars keep it in a spreadsheet, into panel files and the
// questions that the list leaves open.
//
// Columns are matched by their headings in six languages, or as they were named. A blank cell means that
// nobody looked, "?" that somebody looked and could not tell, "none" or 0 that there is none. Nothing is
// dropped: what has no key of its own in the panel file stands in its note, with its heading, as typed.
// Nothing is mended in silence either: what a spreadsheet may have spoilt is asked about.
//
// The words by which headings and cells are known are general knowledge, unchecked (memory).
package intake
