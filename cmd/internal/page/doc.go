// Package page serves crossgrain on the machine it runs on: describe a panel, drop a list or a logger's file, read the answer, print
// the papers, without a command line.
//
// The page stands on the standard library. Everything works as plain forms; a little script makes it answer while one types. It
// listens on the loopback address alone, reads and writes only below the folder it was given, and asks nothing of any network.
//
// What is typed changes the text of the panel file by key ([edit.Text]) and nothing else in it; a draft of every change is kept on
// disk until it is saved. A change is answered at once by closed forms, then by the finer model, then by many cases; each new change
// ends what was still being worked out.
package page
