package rig

// Version is the version of the library that stands on every output.
const Version = "0.1.0-dev"
