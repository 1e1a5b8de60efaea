// Package cleaning says what may touch what: by material, which ways of cleaning
// may be used, which only with care, and which never, with why.
//
// Its table is reference/cleaning.csv, common practice without a source. The
// safety data sheet of the product in hand goes before the table and before
// every caution here.
//
// It cannot tell what a part is made of, nor what a product holds. What the
// table does not say is Unlisted, which is no leave to try it.
package cleaning
