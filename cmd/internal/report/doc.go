// Package report turns results into documents: JSON with closed names, CSV, plain text for the
// terminal and one self-contained page for the treatment file.
package report
