// Package profile follows moisture through the thickness of a board, hour by hour, in a room whose
// humidity and temperature change:
//
//	rho0 du/dt = d/dz( delta(h,T) dp/dz ),   p = h psat(T),   u = u(h; history)
//
// The unknown is the humidity h in balance with the wood at each level. Coatings, still air and
// wood add up as resistances to one and the same pressure, so a face is a sum of layers ([Face]).
//
// # Method
//
// Finite volumes with a level on each face, so the skin is computed and not read off the inside;
// the permeability enters through its integral over h (exact for a law exponential in h); two
// implicit stages of second order ([SDIRK2]) or backward Euler. Storage rises with h but bends
// where the wood turns from drying to wetting; Newton's method takes the slope of the side on which
// each level ends up and repeats until none changes side. Moisture content is then counted from the
// flows, so that what enters the faces is what the board gains, whatever the tolerance.
// Source of the two stages: Alexander 1977, SIAM J. Numer. Anal. 14, gamma = 1-1/sqrt 2 (memory);
// of counting from the flows: Celia, Bouloutas and Zarba 1990, Water Resour. Res. 26 (memory). The
// tests show the orders observed.
//
// # Axes and units
//
// z runs from the back (0) to the painted face, mm. Humidity and moisture content are fractions,
// time s, flow kg/m2. Resistances of layers are given as sd, metres of still air.
//
// # Sorption
//
// By default the wood remembers its turning points of humidity ([moisture.Scan]); the mean curve and
// the differential rule are the two other choices. Curves are read at one temperature; if the mean
// curve has a temperature term, moisture content is scaled by its ratio at 50 % RH (handbook curve,
// 0 to 30 °C and 30 to 80 % RH: within 0.07 points of the equation). A turn of direction inside a
// step is not seen: it lowers the order to 1 for that step.
//
// # Coarse steps
//
// [Solver.Step] takes the air as a straight line from one reading to the next. For steps of several
// hours give it the mean over the step at both ends ([Means]): the mean belongs to the whole step,
// not to its end, so no lag of half a step comes in.
//
// # What it leaves out
//
// Heat of sorption, slow relaxation of the cell wall above about 70 % RH, liquid water (air beyond
// saturation at a cold face is cut at saturation and reported), and flow along the board except by
// the product rule of [BothWays].
package profile
