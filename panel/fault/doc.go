// Package fault says beforehand how long a panel can wait when a climate fails, by the reading of a
// logger and the hours it has stood, and afterwards what a panel did in a record by calculation. It
// takes the unfavourable side throughout: the quick end of the doubt, the far end of a row of readings,
// a thickness that nobody measured as thin, the worst season where it is known. What a panel has lived through unharmed
// counts for that climate alone, as package assessment counts it. It names no causes.
package fault
