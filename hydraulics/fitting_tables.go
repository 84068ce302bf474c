package hydraulics

// hooper holds the two constants of each fitting.
//
// Source: W. B. Hooper, "The two-K method predicts head losses in pipe fittings",
// Chem. Eng. 88(17), 1981, and "Calculate head loss caused by change in pipe size",
// Chem. Eng. 95(16), 1988; figures as read in the source of the library fluids,
// where the screwed 180° bend is filed under 45° and the tee branches under elbows.
// Hooper's own figure for that bend is 0.60 as remembered. Bores in inches.
var hooper = [...]struct {
	name   string
	k1, ki float64
}{
	{"90 elbow, r/D 1, screwed", 800, 0.4},
	{"90 elbow, r/D 1, flanged or welded", 800, 0.25},
	{"90 elbow, r/D 1.5", 800, 0.2},
	{"90 mitre, r/D 1.5, 1 weld", 1000, 1.15},
	{"90 mitre, r/D 1.5, 2 welds", 800, 0.35},
	{"90 mitre, r/D 1.5, 3 welds", 800, 0.3},
	{"90 mitre, r/D 1.5, 4 welds", 800, 0.27},
	{"90 mitre, r/D 1.5, 5 welds", 800, 0.25},
	{"45 elbow, r/D 1", 500, 0.2},
	{"45 elbow, r/D 1.5", 500, 0.15},
	{"45 mitre, r/D 1.5, 1 weld", 500, 0.25},
	{"45 mitre, r/D 1.5, 2 welds", 500, 0.15},
	{"180 bend, r/D 1, screwed", 1000, 0.7},
	{"180 bend, r/D 1, flanged or welded", 1000, 0.35},
	{"180 bend, r/D 1.5", 1000, 0.3},
	{"tee branch, r/D 1, screwed", 500, 0.7},
	{"tee branch, r/D 1.5, screwed", 800, 0.4},
	{"tee branch, r/D 1, flanged or welded", 800, 0.8},
	{"tee branch, stub-in", 1000, 1},
	{"tee run, screwed", 200, 0.1},
	{"tee run, flanged or welded", 150, 0.05},
	{"tee run, stub-in", 100, 0},
	{"gate valve, full line size", 300, 0.1},
	{"ball valve, beta 0.9", 500, 0.15},
	{"plug valve, beta 0.8", 1000, 0.25},
	{"globe valve", 1500, 4},
	{"angle or Y globe valve", 1000, 2},
	{"diaphragm valve, dam type", 1000, 2},
	{"butterfly valve", 800, 0.25},
	{"lift check valve", 2000, 10},
	{"swing check valve", 1500, 1.5},
	{"tilting-disc check valve", 1000, 0.5},
}

// darby holds the three constants of each fitting.
//
// Source: R. Darby, Chemical Engineering Fluid Mechanics, 2nd edition, 2001; as read
// in the source of the library fluids. Nominal sizes in inches.
var darby = [...]struct {
	name       string
	k1, ki, kd float64
}{
	{"90 elbow, r/D 1, threaded", 800, 0.14, 4},
	{"90 elbow, r/D 1.5, threaded", 800, 0.071, 4.2},
	{"90 elbow, r/D 1, flanged or welded", 800, 0.091, 4},
	{"90 elbow, r/D 2", 800, 0.056, 3.9},
	{"90 elbow, r/D 4", 800, 0.066, 3.9},
	{"90 elbow, r/D 6", 800, 0.075, 4.2},
	{"90 mitre, 1 weld", 1000, 0.27, 4},
	{"90 mitre, 2 welds", 800, 0.068, 4.1},
	{"90 mitre, 3 welds", 800, 0.035, 4.2},
	{"45 elbow, r/D 1, threaded", 500, 0.071, 4.2},
	{"45 elbow, r/D 1.5", 500, 0.052, 4},
	{"45 mitre, 1 weld", 500, 0.086, 4},
	{"45 mitre, 2 welds", 500, 0.052, 4},
	{"180 bend, r/D 1, threaded", 1000, 0.23, 4},
	{"180 bend, r/D 1, flanged", 1000, 0.12, 4},
	{"180 bend, r/D 1.5", 1000, 0.1, 4},
	{"tee branch, r/D 1, threaded", 500, 0.274, 4},
	{"tee branch, r/D 1.5", 800, 0.14, 4},
	{"tee branch, r/D 1, flanged", 800, 0.28, 4},
	{"tee branch, stub-in", 1000, 0.34, 4},
	{"tee run, threaded", 200, 0.091, 4},
	{"tee run, flanged", 150, 0.05, 4},
	{"tee run, stub-in", 100, 0, 0},
	{"angle valve, 45, full line size", 950, 0.25, 4},
	{"angle valve, 90, full line size", 1000, 0.69, 4},
	{"globe valve", 1500, 1.7, 3.6},
	{"plug valve, branch flow", 500, 0.41, 4},
	{"plug valve, straight through", 300, 0.084, 3.9},
	{"plug valve, three-way, through", 300, 0.14, 4},
	{"gate valve", 300, 0.037, 3.9},
	{"ball valve", 300, 0.017, 3.5},
	{"diaphragm valve, dam type", 1000, 0.69, 4.9},
	{"swing check valve", 1500, 0.46, 4},
	{"lift check valve", 2000, 2.85, 3.8},
}

// crane holds the multiples N of the fully turbulent friction factor: K = N fT, and
// N is the equivalent length over the bore.
//
// Source: Crane, Technical Paper 410, as read in the source of the library fluids;
// the two tees from memory of the editions before 2009.
var crane = [...]struct {
	name string
	n    float64
}{
	{"90 elbow, threaded", 30},
	{"45 elbow, threaded", 16},
	{"180 bend, threaded", 50},
	{"90 mitre", 60},
	{"45 mitre", 15},
	{"gate valve", 8},
	{"ball valve, full bore", 3},
	{"globe valve", 340},
	{"angle valve, N 150", 150},
	{"angle valve, N 55", 55},
	{"swing check valve, angled seat", 100},
	{"swing check valve, straight", 50},
	{"lift check valve, globe", 600},
	{"lift check valve, angle", 55},
	{"foot valve, poppet disc", 420},
	{"foot valve, hinged disc", 75},
	{"plug valve, straight-way", 18},
	{"diaphragm valve, weir", 149},
	{"diaphragm valve, straight-through", 39},
	{"tee run", 20},
	{"tee branch", 60},
}

// craneFT holds the fully turbulent friction factor by nominal size of schedule 40
// pipe, in inches.
//
// Source: Crane, Technical Paper 410, 2009, three decimals. Older printings have
// 0.027, 0.025, 0.023, 0.022 and 0.021 for the first five.
var craneFT = [...]struct {
	nominal, ft float64
}{
	{0.5, 0.026},
	{0.75, 0.024},
	{1, 0.022},
	{1.25, 0.021},
	{1.5, 0.020},
	{2, 0.019},
	{2.5, 0.018},
	{3, 0.017},
	{4, 0.016},
}

// fixed holds loss coefficients that do not depend on size.
//
// Source: Crane, Technical Paper 410, as read in the source of the library fluids;
// Rennels and Hudson, Pipe Flow, 2012, give 0.57 for the flush sharp entrance.
var fixed = [...]struct {
	name string
	k    float64
}{
	{"entrance, sharp", 0.5},
	{"entrance, projecting", 0.78},
	{"exit", 1},
	{"entrance, rounded r/d 0.02", 0.28},
	{"entrance, rounded r/d 0.04", 0.24},
	{"entrance, rounded r/d 0.06", 0.15},
	{"entrance, rounded r/d 0.10", 0.09},
	{"entrance, rounded r/d 0.15 or more", 0.04},
}
