// Package quote rolls up the money of a rig: the parts of its bill of
// materials, the hours of work, mark-up and margin, and the delivery time.
//
// Prices are whole cents; every line is rounded half away from zero, and the
// totals are sums of lines. Mark-up is profit over cost, margin is profit over
// price; both are always shown, because a mark-up of 35 % is a margin of
// 25.9 %. What is not known is counted and named: lines without a price, prices
// without a cost, prices that are old or of unknown age.
//
// A [Quote] is the dealer's own. A [CustomerQuote] is a type of its own that
// has no field for cost, margin or supplier numbers. Tax, freight and finance
// are not in either: they differ by place.
package quote
