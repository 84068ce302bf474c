package rig

// DoseHours is the time of a whole noise dose at a level, in hours, by 29 CFR
// 1910.95 and by the NIOSH criterion.
func DoseHours(level float64) (byRule, byCriterion float64) {
	return doseTime(level, osha, oshaExchange) / 3600, doseTime(level, niosh, nioshExchange) / 3600
}

// LevelAt carries a sound level from one distance to another, in metres.
func LevelAt(level, told, distance float64) float64 { return levelAt(level, told, distance) }
