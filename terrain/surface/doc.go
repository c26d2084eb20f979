// Package surface fits the ground to spot heights and says how well it is
// known: its height and gradient at any point with their covariances, which
// heights look mis-booked, and where the survey is too thin to tell.
//
// Three kinds of ground are tried, the simplest first: a plane, a curved
// surface (a full quadratic), and a smooth surface (a Gaussian process about a
// sloping plane). FitSpots chooses between them by whether the heights lie on
// them within the reading error. FitPieces does the same in the parts of a plot
// that walls, kerbs and banks cut it into.
//
// What a fit is for comes after: the probability that a fall is over a limit
// (FallExceeds), grounds drawn at random that all agree with the heights
// (Simulate), and the heights that would settle most if they were taken next
// (Next). A thin plate is a second opinion on smooth ground.
//
// x is east, y north, z up, metres; gradients are ratios, bearings radians
// clockwise from the y axis. A fitted surface never changes and may be asked
// from several goroutines at once.
package surface
