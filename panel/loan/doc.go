// Package loan works out what a loan asks of panels, and which conditions to agree for it.
//
// [Read] turns a loan file (TOML, format 1) into a [Loan] or into all of its problems at once;
// [Loan.Assess] takes every panel from home through the legs of the loan and back, and proposes a
// range, a change within 24 hours, a temperature and the days that the case stays closed, each with
// its reason.
//
// # The file
//
// Dates are written "2026-10-05", or "2026-10" for a whole month; files are named from the loan file's
// folder.
//
//	[loan]          number, issue, date, title, lender, borrower, one_room, of_100 (1, 5 or 10), offer
//	[panel.NAME]    file, answered (parts), answered_by, answered_on, inspected_by, inspected_on, frame, room
//	[home]          record, terms
//	[case]          kind ("case" or "sealed frame"), volume_l, air_changes_per_day, buffer_kg, conditioned_rh_pct
//	[venue.NAME]    name, room, record, terms, measured
//	[leg.NAME]      kind ("transit", "store" or "on show"), from, to, venue, record, terms, in_case
//	[contact.NAME]  name, phone, zone, language
//
// # What is worked out
//
// Each panel is assessed over the humidities from 30 to 70 % RH by many realisations; how many of
// 100 such panels reach a limit between two humidities is read off that. The climate of each leg is
// its record, of the same months, or terms, of which both ends are held: the panel then goes through
// two courses, one by the dry ends and one by the damp ones. In a case or a sealed frame the climate
// is that of [scenario.Case] with the panel's own wood in it. The count of a leg is that of the
// humidities which the wood came into balance with, each taken as held for a season: the cautious
// side.
//
// # What is proposed
//
// The range in which at most 5 (or 1, or 10) of 100 such panels reach a limit; for panels in one room
// (one_room, or the same words at room) the part that all of them share; rounded inward to what a room can hold. A finding that stands
// before the figures ([panel.Gate], or an open join or split that no conservator has answered for)
// leaves a panel without any.
//
// Results are findings, what cannot be told, and what is left to the conservator.
package loan
