// Package logger reads the humidity records that people have: text of any common layout, JSON and
// spreadsheets, one file or several, into one [record.Record].
//
// Nothing is dropped in silence and nothing is guessed in silence: what was set aside is counted
// with its reason and its lines, and every guess that mattered is said in one line. What cannot be
// decided is refused, with the option that settles it.
package logger
