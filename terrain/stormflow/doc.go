// Package stormflow plays a burst of rain over a grid of ground: how deep water
// gets, where it runs, what stands behind boards, and what leaves by the edges.
//
// The equations are those of shallow water without the convective terms, the
// local-inertial form of Bates, Horritt & Fewtrell (2010, Journal of Hydrology
// 387:33-45) and de Almeida et al. (2012, Water Resources Research 48), both
// from memory: depth in the cells, discharge per metre of width on the faces
// between them, Manning friction taken at the end of each step. On slopes it
// tends to the kinematic wave without error of its own; it ponds and backs up.
// It does not hold for jets and hydraulic jumps, so close to boards and in
// channels depths and volumes may be believed, but not the pattern of speeds.
//
// SI units throughout: metres, seconds, m/s of rain, m2/s of discharge per metre
// of width, pascals. Column 0 is the western one and row 0 the southern one.
//
// A Model is the ground and does not change; any number of runs may use one at
// the same time. A run gives the same bits whatever the number of workers.
package stormflow

// Gravity is the acceleration of fall, m/s2.
const Gravity = 9.81
