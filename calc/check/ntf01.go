package check

import (
	"strings"

	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// NTF-01: which notification and which form the work may need. A prompt, not
// advice: rules differ by country and change. Source: Approved Document P for
// England (since April 2013) and public guidance for the others.
var notificationRule = Rule{Code: "NTF-01", Title: "Notification and form", Run: notification}

func notification(c *Context, emit func(finding.Finding)) {
	if c.plan.supply < 0 {
		return
	}
	spur := c.Net.Supply.Kind == network.Spur
	scope, form := "a new circuit", "an installation certificate with its schedules"
	if spur {
		scope, form = "an addition to an existing circuit", "a minor works certificate"
	}
	rule, source := notificationText(c.Country, spur)
	s := c.supplySubject()
	emit(finding.Finding{Code: "NTF-01", Level: finding.Note, Subject: s, Source: source,
		Text:    scope + ": " + form + ". " + rule,
		Working: s.Label + " is " + scope + ", so the usual form is " + form + "\ncountry: " + countryName(c.Country) + "\n" + rule,
	})
}

func countryName(country string) string {
	if country == "" {
		return "not given"
	}
	return country
}

// notificationText returns what applies in a country, in our own words.
func notificationText(country string, spur bool) (string, finding.Source) {
	switch strings.ToLower(country) {
	case "england":
		src := finding.Source{Standard: "Approved Document P", Clause: "England, since April 2013", Evidence: finding.Found}
		if spur {
			return "England: not notifiable unless it reaches a special location such as a pool; it still has to be tested and recorded.", src
		}
		return "England: notifiable to building control, unless a registered installer or certifier handles it.", src
	case "wales":
		return "Wales: the list of 2013 was for England only; garden work may be notifiable, check the present Welsh list.",
			finding.Source{Standard: "Approved Document P", Clause: "Wales", Evidence: finding.Found}
	case "scotland":
		return "Scotland: the building standards system applies; ask the local authority or an approved certifier whether a warrant is needed.",
			finding.Source{Standard: "Scottish building standards", Evidence: finding.Found}
	case "northern ireland":
		return "Northern Ireland: no statutory notification scheme; a registered contractor is advised.",
			finding.Source{Standard: "public guidance for Northern Ireland", Evidence: finding.Found}
	case "":
		return "The country is not given: the rules differ between England, Wales, Scotland and Northern Ireland.",
			finding.Source{Standard: "Approved Document P and its counterparts", Evidence: finding.Found}
	}
	return "No notification rule is held for " + country + ": ask the local authority.", finding.Source{Evidence: finding.Practice}
}
