// Package bearing gives what a rolling bearing is heard at when a part of it is
// hurt, how long it lasts, how its rings are to sit, how much play it needs
// and how hot it may be made for mounting.
//
// Lengths are in mm, deviations and play in µm, loads in kN, speeds in
// rev/min, temperatures in °C.
//
// It cannot detect dirt, a bent shaft, a seat out of round, or that a bearing
// of another make has another number of balls: the envelope does not show it.
// Count them, or read the maker's list.
//
// Sources: [ISO281] rating life; [ISO492] tolerances of radial bearings;
// [ISO5753-1] radial internal clearance; [ISO286] limits of size, by package
// fit; textbook kinematics for the orders.
package bearing
