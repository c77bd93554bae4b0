// Package assessment asks one question of a panel: over this range of humidity, or this record,
// what moves, what is near its limit, and how far may the humidity go. It knows modes and shares
// of limit, not how they are computed.
//
// # Doubt
//
// Every input that was not measured is moved by one standard deviation each way, one at a time;
// the changes of a share are added as squares (first-order second moment): those of its logarithm
// where an input multiplies the share, those of the share itself where an input shifts it. The
// unfavourable end lies 1.645 standard deviations above the nominal share: about 5 in 100
// plausible cases lie beyond it. This is honest about the size of the doubt and blind to inputs
// that act together.
package assessment
