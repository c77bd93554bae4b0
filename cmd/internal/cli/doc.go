// Package cli is the command line of crossgrain: one file per command, results to stdout,
// remarks to stderr.
//
// # Exit codes
//
// 0 done, whatever the answer; 1 a check or a limit failed where that was asked for (verify,
// --fail-on-limit); 2 bad input or usage; 3 a fault of the program; 130 stopped by the user.
package cli
