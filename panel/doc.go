// Package panel describes a painted panel: what was measured, what lies between two numbers, what
// is not known (Panel), and one realisation of it as plain numbers (Object).
//
// # From file to numbers
//
// [Read] turns a panel file (TOML, format 1) into a [Panel] or into all of its problems at once.
// [Panel.Realise] turns a Panel into an [Object], nominal or with every uncertain value
// ([Panel.Inputs]) moved by a standard normal of its own. What the file does not give is taken from
// defaults that say where they come from ([Panel.Assumptions]); what must be said before any number
// are [Panel.Gates]. One table of keys stands behind reader, [Panel.Write], [Template], [Reference]
// and [Panel.NotUsed].
//
// A word that is left out is not recorded, "?" means looked at and could not tell, and "none" is an
// answer; the three are kept apart. The end grain may be given as [ends] state = "bare" or as
// ends = "bare" above the first table; the first is written. A place across a split's board is
// measured from that board's left edge, without a board from the panel's.
//
// # Units and axes
//
// N, mm, MPa, s, degC; strain, relative humidity and moisture content are fractions. x runs across
// the grain from the left edge (grain upright) or the lower edge (grain level), y along the grain
// from the lower or left end, z from the back face to the painted face. Strain is positive when
// longer, stress when pulling, cup when the painted face is rounded (convex).
package panel
