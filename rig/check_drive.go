package rig

// driveChecks judge the engines.
func driveChecks() []*limitCheck {
	return []*limitCheck{
		{metric: mEngineDemand, root: "engine", severity: Stop, against: mEngineHas, by: "plate derating at the site", also: []*Metric{mEngineHas},
			doc: plate(CodeDoc{Code: "engine-overload", Bad: Higher, Title: "more power asked of the engine than it has at the site",
				Meaning: "Pumps and belt generators together take more than the engine gives for hours at the site's elevation and air.", Defers: "engine maker"})},
	}
}
