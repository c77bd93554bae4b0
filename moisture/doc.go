// Package moisture knows how wood takes up water from the air: humid air, sorption isotherms by
// author, scanning between them with a memory of turning points, and the time a board needs. It
// knows no wood by name: curves of woods come in as [GAB] or any other [Isotherm].
//
// # Units
//
// Relative humidity ([RH]) and moisture content ([MC]) are fractions, temperature ([Celsius]) in °C;
// vapour pressure Pa, thickness mm, diffusion m2/s, time s. Functions on the path of a solver take
// humidity as plain float64, 0 to 1.
//
// # Outside the range
//
// Isotherms give NaN for RH outside 0 to 1 and a *tables.RangeError for a moisture content they
// cannot reach. Formulas of humid air give a *tables.RangeError outside the temperatures they are
// stated for. The handbook equation is evaluated outside its printed table;
// [HailwoodHorrobin.InTable] tells the caller to say so. Scanning clips humidity to 0 to 1.
//
// # Sources
//
//	Wood Handbook FPL-GTR-190 (2010), ch. 4, eq. (4-5), Table 4-2    HailwoodHorrobin
//	Bratasz et al., proceedings, Firenze University Press, Table 1   GAB
//	Peralta 1995; Mualem 1974 type II (memory)                       Scan, ScanDrying, ScanWetting, Loop
//	Rode 1990 (memory)                                               Rode
//	Sonntag 1994                                                     Sonntag1994
//	WMO guide (CIMO) 2008, annex 4.B                                 MagnusWMO
//	Hyland and Wexler 1983, ASHRAE ch. 1 eq. (6) (memory)            HylandWexler
//	ASHRAE Fundamentals 2017, ch. 1                                  MixingRatio, Saturation.MixingRatioWet
//	Vaisala, humidity conversion formulas                            AbsoluteHumidity
//	Crank 1975, ch. 4 (plane sheet, surface resistance)              Faces.Uptake, Local, Ramp, Fourier
//	Carslaw and Jaeger 1959, 2.6, 2.7, ch. 3                         Slab.Swing, AttenuationDepth, Faces (early times)
//	first moment of the same profiles (worked out here)              Faces.Moment, Peak
//
// # Which sorption curve
//
// Range answers and records rest on one choice: movement is a band from the scanning loop ([Loop],
// the smaller) to the mean curve (the larger, the cautious end). The branch on which a piece of wood
// starts is unknown within half the gap between the branches: about 1 point of moisture content for
// poplar and 1.4 for oak at 50 % RH.
//
// # What is checked
//
// [Checks] returns the expected values this package reproduces. Left out, and why: the saturation
// mixing ratio at 50 °C (no enhancement factor here), and spruce dried from 93 % RH (see
// [SpruceLoop] and the test of the measured loop).
package moisture
