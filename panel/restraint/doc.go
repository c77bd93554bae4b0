// Package restraint knows what battens, cradles, fixings, frames and its own weight do to a panel
// that wants to move.
//
// # The system
//
// [Build] joins a panel condensed to its patches (plan.Flex) with one bar and its fixings;
// [System.Step] marches it through a history with memory, [System.Solve] answers from the state in
// which the bar was fixed. Between panel and bar:
//
//	s_i = free_i + sum_j C_ij F_j + c          slip at fixing i; c = shift of the bar
//	C   = U_panel + U_bar + a^2/(D + EI)       stretching, and the lever of a bar behind the panel
//	sum F = 0,   F_i = -law_i(s_i)
//
// a is the distance of the centroids. Panel and bar share one curvature (Newmark's assumption)
// unless the bar holds the panel flat. The law of a fixing is a friction limit beside a slot with
// play each way, a slip modulus and a yield load. Every law rises, so the forces are unique; they
// are found by following the movement from the last state to the next through every corner of the
// laws (J. Katzenelson, An algorithm for solving nonlinear resistor networks, Bell System Technical
// Journal 44, 1965: name and idea from memory), which ends after finitely many moves.
//
// # Signs and units
//
// N, mm, MPa. x across the grain from the left, z towards the painted face. A force on the panel
// is positive to the right; N(x) and strain positive = tension; slip positive = the panel has
// moved to the right of the bar; curvature and cup positive = painted face convex ("rounded").
//
// # Equation to function
//
//	rigid hold, sigma = -E e                     Rigid
//	elastic end                                  Support
//	friction limit, flattening force             FrictionLimit, Flatten
//	glued, held flat / free to bend              GluedFlat, Composite
//	Volkersen shear lag                          Lag
//	chain of fixings                             Build, System.Solve
//	two fixings                                  TwoFasteners
//	slip moduli                                  SlipNailDriven, SlipScrew, SlipNailDIN
//	gamma method and exact partial interaction   Layered, Layered.Exact
//	deflection of a batten                       MidLoad, EndLoad, RestrainingEffect
//	buckling of thinned panels                   Rippling, Bulge
//	contact, friction, yield in any directions   Body, Body.WithBar, March
//	own weight                                   Weight, Plate, Weight.On, Upright
//	rippling between glued members               Bay
//	members on springs                           Sprung
//	slots, room in a frame                       Swing
//	easing by design                             Easing
//	warp and width after release                 Release
//	frame and slider notch                       Fit, NotchPlay
package restraint
