// Package scenario makes climates from a few numbers, and works out the climate inside a closed case.
//
// # From numbers to a climate
//
//	used, dry := scenario.Climate{RH: 0.55, T: 20}, scenario.Climate{RH: 0.35, T: 20}
//	room, err := scenario.StepAndHold(scenario.Clock{}, used, dry, 2*day, 90*day)           // step and hold
//	room, err := scenario.StepAndReturn(scenario.Clock{}, used, dry, 2*day, 3*day, 60*day)  // a fault
//	room, err := scenario.Ramp(scenario.Clock{}, used, dry, 2, 2*day, 60*day)               // acclimatisation, 2 points a day
//	room, err := scenario.Yearly(scenario.UnheatedSpace, scenario.Clock{}, 1)               // year and day of a kind of building
//
//	c := scenario.Case{Volume: 60, Exchange: 0.5, Start: used,                              // a case in any of these rooms
//		Wood: scenario.Wood{Mass: 4, Quick: 0.3, Hours: 48}, Lag: 2}
//	inside, err := c.Inside(room)
//
// Each is a *record.Record and goes wherever a logger's record goes: to the statistics of package
// record and, as the record of a question to package assessment, through a panel.
//
// Made climates come as a *record.Record, so that whatever reads a logger's record reads them too;
// the notes of the record say that it is made, and from which numbers. There are [Sequence] (legs
// held one after the other: home, transit, on show, return) with its short forms [StepAndHold],
// [StepAndReturn] and [Ramp], and [Building], a year with its daily and its yearly cycle whose phase
// belongs to the kind of building.
//
// A [Case] is a volume of air with an air exchange, a buffer, the wood of the panel and a temperature
// of its own. [Case.Inside] gives its climate hour by hour in a room, [Case.After] and [Case.Until]
// the closed forms for a room that stays as it is, [Case.Opening] how long to wait before opening.
//
// # The balance of a case
//
// With the vapour pressure p, the content W of water in the air, the buffer and the quick wood, the
// air exchange N and the volume V:
//
//	dW/dt = N V (p_room - p) / (Rv T) - (water that the slow wood takes up)
//	W     = V p/(Rv T) + 100 m B h + f M u(h,T)
//
// p = h psat(T) and T belong to the case. Air is exchanged for as much dry air, so that rest means
// equal vapour pressure, as it does for vapour that diffuses through a seal. What the air breathes
// out once when it expands (3.4 % of it in 10 K) is counted within N. Vapour is an ideal gas, and
// saturated over liquid water at every temperature.
package scenario
