// Package record holds records of room climate and says what is in them: statistics weighted by time,
// gaps and coverage, the historic band, the largest changes, cycles of the year and the day, and
// readings that may not be the room's. Files are read by package logger, terms are judged by package
// terms.
//
// # What is never done
//
// Nothing is filled in: gaps stay gaps in every figure. Nothing is taken out: [Record.Flags] points at
// spikes and stuck sensors, and only [Record.Without] leaves them out, in a copy.
//
// # Weights
//
// Means, hours and percentiles are weighted by time: a reading stands for half the way to its
// neighbours, but for no more than half the usual step to each side, so that a gap counts for nothing.
// The usual step is the median; where at least 12 intervals in a row are alike it is theirs, so that a
// record whose interval was changed has no gaps by it. With even steps every reading has the same
// weight, and percentiles are plain order statistics at (n-1)p/100.
//
// # Time
//
// Times are instants, their differences elapsed time. Days, months and hours of the day are those of
// clocks in [Record.Zone]; [Instant] tells civil times that occur twice or not at all where
// [time.Date] picks one in silence.
//
// # Sources
//
//	EN 15757:2010, scope and reports of it   HistoricBand
//	four readings of "+-x in 24 h"           Change, Reading
//	the open records and their statistics    the tests (testdata/records/README.md)
package record
