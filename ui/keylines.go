package ui

import "duskwire/layout/tool"

// What the list of keys says of parts that have their keys from several places;
// TestSourcesAreListed holds it against the sources.

// readingLines are the keys of the readings.
func readingLines() []tool.KeyLine {
	return []tool.KeyLine{
		{Keys: "Return, Tab, ↓", What: "Keep the reading and go to the next point"},
		{Keys: "Shift+Tab, ↑", What: "Keep it and go to the point before"},
		{Keys: "A figure", What: "Typed at the list of tests or of points: the reading of the point that is marked"},
		{Keys: "Esc", What: "Take back typing; without any, back to the plan"},
	}
}

// priceLines are the keys of the price list.
func priceLines() []tool.KeyLine {
	return []tool.KeyLine{
		{Keys: "Return", What: "Keep the price and go to the next one; Tab and Shift+Tab too"},
		{Keys: "PgUp PgDn", What: "Scroll the list"},
		{Keys: "Esc", What: "Take back typing; without any, close the list"},
	}
}

// sheetLines are the keys of questions and of what else opens over the window.
func sheetLines() []tool.KeyLine {
	return []tool.KeyLine{
		{Keys: "Return", What: "The coloured answer; on a button that one, as Space; in a list of files open or go into it"},
		{Keys: "Esc", What: "Close, change nothing"},
		{Keys: "↑ ↓, PgUp PgDn", What: "Scroll what is long; in a list choose"},
	}
}
