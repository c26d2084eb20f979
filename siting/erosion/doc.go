// Package erosion says what a year carries off a slope, and what a winter may
// take of the compost of a bed: the yearly soil loss of Agriculture Handbook 703
// (Renard, Foster, Weesies, McCool & Yoder 1997), with bands so wide that
// they are honest at the size of a garden.
//
// Erosivity is in MJ mm/(ha h) a year, erodibility in t ha h/(ha MJ mm), loss
// in tonnes a hectare a year; lengths are plan metres, slopes metres of fall to
// a metre of plan.
package erosion
