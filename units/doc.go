// Package units is the shared vocabulary of quantities.
package units
