// Package tables holds the printed tables, measured values and limits that every number of
// crossgrain rests on, each with its source, its evidence and its spread.
//
// # Layout
//
// One CSV file stands for one printed table (folder data, embedded in the program). Lines that
// begin with '#' at its head say where the table was printed, where and when it was read, what
// the units are, and what other sources say. The bibliography is data/sources.csv; the rows name
// its keys. Units and digits are those of the source; conversion happens in the package that uses
// the table.
//
// The package imports nothing else of crossgrain.
package tables
