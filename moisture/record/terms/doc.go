// Package terms reads what a loan agreement or a standard asks of a room's climate, and says how
// long a record kept it.
//
// [Parse] reads text such as "45..55, 5/24h, 18..22C"; [Named] returns a published set from
// data/climate_terms.csv. Figures of a set stand there only with their source; those known from
// memory are marked, and [Terms.FromMemory] lists them so that a person confirms them before use.
//
// # Clauses
//
// A clause is a range of humidity or temperature, or a largest change within a time:
//
//	45..55      45-55 %   45 to 55 % RH   50+-5       humidity, from and to
//	18..22C     64..72F   T 18..22                    temperature; the unit C or F, or the letter T, is needed
//	..65        <= 65     max 65          >= 35       one side only
//	5/24h       5 % per 24 h   5 in 24h   +-5/day     change of humidity, points
//	4C/24h      4K/day    7F/24h                      change of temperature
//
// Clauses are parted by commas, semicolons or line ends and stand in any order; decimals are written
// with a point. A set has at most one range of each quantity and one change of each quantity and
// time.
//
// # Judging
//
// [Terms.Judge] weighs by time as all of package record does: a reading stands for half the way to
// its neighbours, gaps count for nothing and end a time outside. A limit itself counts as kept. What
// "a change of x in 24 h" means is one of four readings, named in the result.
package terms
