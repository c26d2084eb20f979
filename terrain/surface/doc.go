// Package surface fits the ground to spot heights and says how well it is
// known: its height and gradient at any point with their covariances, which
// heights look mis-booked, and where the survey is too thin to tell.
//
// Three kinds of ground are tried, the simplest first: a plane, a curved
// surface (a full quadratic), and a smooth surface (a Gaussian process about a
// sloping plane). FitSpots chooses between them by whether the heights lie on
// them within the reading error.
//
// x is east, y north, z up, metres; gradients are ratios, bearings radians
// clockwise from the y axis. A fitted surface never changes and may be asked
// from several goroutines at once.
package surface
