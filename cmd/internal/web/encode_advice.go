// Code generated from the struct advisor.Advice by encode_advice_test.go; DO NOT EDIT.

package web

//go:generate go test -run TestAdviceIsWrittenFromTheStruct -update .

import (
	"strconv"

	"hotroom/advisor"
)

func appendAdvice(b []byte, v *advisor.Advice) []byte {
	b = append(b, `{"question":`...)
	b = appendQuestion(b, &v.Question)
	b = append(b, `,"verdict":`...)
	b = appendText(b, v.Verdict)
	b = append(b, `,"headline":`...)
	b = appendText(b, v.Headline)
	b = append(b, `,"score":`...)
	b = appendNumber(b, v.Score)
	b = append(b, `,"evidence":`...)
	b = appendText(b, v.Evidence)
	b = append(b, `,"runs":`...)
	b = appendList(b, v.Runs, appendText)
	b = append(b, `,"hot_spot":`...)
	b = appendHotSpot(b, &v.HotSpot)
	b = append(b, `,"limit":`...)
	b = appendLimit(b, &v.Limit)
	b = append(b, `,"limits":`...)
	b = appendStructs(b, v.Limits, appendLimit)
	b = append(b, `,"margin":`...)
	b = appendMargin(b, &v.Margin)
	b = append(b, `,"ceiling":`...)
	b = appendCeiling(b, &v.Ceiling)
	b = append(b, `,"clock":`...)
	b = appendClock(b, &v.Clock)
	b = append(b, `,"power":`...)
	b = appendPower(b, &v.Power)
	b = append(b, `,"air":`...)
	b = appendAir(b, &v.Air)
	b = append(b, `,"time":`...)
	b = appendTime(b, &v.Time)
	b = append(b, `,"capacitor":`...)
	b = appendCapacitor(b, &v.Capacitor)
	b = append(b, `,"evidence_detail":`...)
	b = appendEvidenceDetail(b, &v.EvidenceDetail)
	b = append(b, `,"changes":`...)
	b = appendStructs(b, v.Changes, appendChange)
	b = append(b, `,"findings":`...)
	b = appendStructs(b, v.Findings, appendFinding)
	b = append(b, `,"cautions":`...)
	b = appendList(b, v.Cautions, appendText)
	b = append(b, `,"defaults":`...)
	b = appendList(b, v.Defaults, appendText)
	b = append(b, `,"estimated":`...)
	b = appendList(b, v.Estimated, appendText)
	b = append(b, `,"versions":`...)
	b = appendVersions(b, &v.Versions)
	return append(b, '}')
}

func appendQuestion(b []byte, v *advisor.Question) []byte {
	b = append(b, `{"board":`...)
	b = appendText(b, v.Board)
	b = append(b, `,"chip":`...)
	b = appendText(b, v.Chip)
	b = append(b, `,"room_c":`...)
	b = appendGiven(b, v.RoomC, appendNumber)
	b = append(b, `,"enclosure":`...)
	b = appendText(b, v.Enclosure)
	b = append(b, `,"cooler":`...)
	b = appendText(b, v.Cooler)
	b = append(b, `,"load":`...)
	b = appendText(b, v.Load)
	b = append(b, `,"setup":`...)
	b = appendText(b, v.Setup)
	b = append(b, `,"power_w":`...)
	b = appendGiven(b, v.PowerW, appendNumber)
	b = append(b, `,"current_a":`...)
	b = appendGiven(b, v.CurrentA, appendNumber)
	b = append(b, `,"ghz":`...)
	b = appendGiven(b, v.GHz, appendNumber)
	b = append(b, `,"graphics_w":`...)
	b = appendGiven(b, v.GraphicsW, appendNumber)
	b = append(b, `,"altitude_m":`...)
	b = appendGiven(b, v.AltitudeM, appendNumber)
	return append(b, '}')
}

func appendHotSpot(b []byte, v *advisor.HotSpot) []byte {
	b = append(b, `{"expected_c":`...)
	b = appendGiven(b, v.ExpectedC, appendNumber)
	b = append(b, `,"low_c":`...)
	b = appendGiven(b, v.LowC, appendNumber)
	b = append(b, `,"high_c":`...)
	b = appendGiven(b, v.HighC, appendNumber)
	b = append(b, `,"uncertainty_c":`...)
	b = appendGiven(b, v.UncertaintyC, appendNumber)
	b = append(b, `,"unthrottled_c":`...)
	b = appendGiven(b, v.UnthrottledC, appendNumber)
	return append(b, '}')
}

func appendLimit(b []byte, v *advisor.Limit) []byte {
	b = append(b, `{"value_c":`...)
	b = appendGiven(b, v.ValueC, appendNumber)
	b = append(b, `,"stated_by":`...)
	b = appendText(b, v.StatedBy)
	b = append(b, `,"kind":`...)
	b = appendText(b, v.Kind)
	b = append(b, `,"source":`...)
	b = appendText(b, v.Source)
	return append(b, '}')
}

func appendMargin(b []byte, v *advisor.Margin) []byte {
	b = append(b, `{"expected_c":`...)
	b = appendGiven(b, v.ExpectedC, appendNumber)
	b = append(b, `,"kept_c":`...)
	b = appendGiven(b, v.KeptC, appendNumber)
	b = append(b, `,"exceed_probability":`...)
	b = appendGiven(b, v.ExceedProbability, appendNumber)
	return append(b, '}')
}

func appendCeiling(b []byte, v *advisor.Ceiling) []byte {
	b = append(b, `{"room_c":`...)
	b = appendGiven(b, v.RoomC, appendNumber)
	b = append(b, `,"package_w":`...)
	b = appendGiven(b, v.PackageW, appendNumber)
	b = append(b, `,"package_at_least":`...)
	b = strconv.AppendBool(b, v.PackageAtLeast)
	return append(b, '}')
}

func appendClock(b []byte, v *advisor.Clock) []byte {
	b = append(b, `{"sustained_ghz":`...)
	b = appendNumber(b, v.SustainedGHz)
	b = append(b, `,"target_ghz":`...)
	b = appendNumber(b, v.TargetGHz)
	b = append(b, `,"limited_by":`...)
	b = appendText(b, v.LimitedBy)
	b = append(b, `,"loss_percent":`...)
	b = appendNumber(b, v.LossPercent)
	return append(b, '}')
}

func appendPower(b []byte, v *advisor.Power) []byte {
	b = append(b, `{"package_w":`...)
	b = appendNumber(b, v.PackageW)
	b = append(b, `,"core_a":`...)
	b = appendNumber(b, v.CoreA)
	b = append(b, `,"volts":`...)
	b = appendNumber(b, v.Volts)
	b = append(b, `,"regulator_loss_w":`...)
	b = appendGiven(b, v.RegulatorLossW, appendNumber)
	b = append(b, `,"regulator_efficiency":`...)
	b = appendGiven(b, v.RegulatorEfficiency, appendNumber)
	return append(b, '}')
}

func appendAir(b []byte, v *advisor.Air) []byte {
	b = append(b, `{"local_c":`...)
	b = appendGiven(b, v.LocalC, appendNumber)
	b = append(b, `,"case_rise_c":`...)
	b = appendGiven(b, v.CaseRiseC, appendNumber)
	b = append(b, `,"airspeed_ms":`...)
	b = appendNumber(b, v.AirspeedMS)
	return append(b, '}')
}

func appendTime(b []byte, v *advisor.Time) []byte {
	b = append(b, `{"to_95_percent_min":`...)
	b = appendGiven(b, v.To95PercentMin, appendNumber)
	b = append(b, `,"to_limit_min":`...)
	b = appendGiven(b, v.ToLimitMin, appendNumber)
	return append(b, '}')
}

func appendCapacitor(b []byte, v *advisor.Capacitor) []byte {
	b = append(b, `{"kind":`...)
	b = appendGiven(b, v.Kind, appendText)
	b = append(b, `,"temperature_c":`...)
	b = appendGiven(b, v.TemperatureC, appendNumber)
	b = append(b, `,"life_h":`...)
	b = appendGiven(b, v.LifeH, appendNumber)
	b = append(b, `,"life_years":`...)
	b = appendGiven(b, v.LifeYears, appendNumber)
	return append(b, '}')
}

func appendEvidenceDetail(b []byte, v *advisor.EvidenceDetail) []byte {
	b = append(b, `{"nearest_run":`...)
	b = appendGiven(b, v.NearestRun, appendText)
	b = append(b, `,"package_gap_percent":`...)
	b = appendGiven(b, v.PackageGapPercent, appendNumber)
	b = append(b, `,"room_gap_c":`...)
	b = appendGiven(b, v.RoomGapC, appendNumber)
	b = append(b, `,"uncertainty_removed_percent":`...)
	b = appendGiven(b, v.UncertaintyRemovedPercent, appendNumber)
	return append(b, '}')
}

func appendChange(b []byte, v *advisor.Change) []byte {
	b = append(b, `{"text":`...)
	b = appendText(b, v.Text)
	b = append(b, `,"question":`...)
	b = appendQuestion(b, &v.Question)
	b = append(b, `,"verdict":`...)
	b = appendText(b, v.Verdict)
	b = append(b, `,"margin_kept_c":`...)
	b = appendGiven(b, v.MarginKeptC, appendNumber)
	return append(b, '}')
}

func appendFinding(b []byte, v *advisor.Finding) []byte {
	b = append(b, `{"rule":`...)
	b = appendText(b, v.Rule)
	b = append(b, `,"kind":`...)
	b = appendText(b, v.Kind)
	b = append(b, `,"points":`...)
	b = appendNumber(b, v.Points)
	b = append(b, `,"text":`...)
	b = appendText(b, v.Text)
	b = append(b, `,"source":`...)
	b = appendText(b, v.Source)
	return append(b, '}')
}

func appendVersions(b []byte, v *advisor.Versions) []byte {
	b = append(b, `{"knowledge":`...)
	b = appendText(b, v.Knowledge)
	b = append(b, `,"rules":`...)
	b = appendText(b, v.Rules)
	b = append(b, `,"program":`...)
	b = appendText(b, v.Program)
	return append(b, '}')
}
