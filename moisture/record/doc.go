// Package record reads records of room climate and says what they hold: lowest, mean and highest
// humidity, running means, gaps.
//
// # What is read
//
// [ReadCSV] reads plain text with one head line and the columns time, relative humidity and, if
// there is one, temperature, in any order, parted by commas, semicolons or tabs. Times are ISO 8601
// (year-month-day). Anything doubtful is refused in words, with the line; anything left out (empty
// cells, columns not asked for) is reported in [Record.Notes]. Nothing is dropped in silence.
//
// # Weights
//
// Means are weighted by time: a reading stands for half the way to its neighbours, but for no more
// than half the usual step to each side, so that a gap counts for nothing. With even steps every
// reading has the same weight.
package record
