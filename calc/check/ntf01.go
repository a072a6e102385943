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

// notice is what applies in one country, in our own words: to a new circuit and
// to an addition to one.
type notice struct {
	country    string
	fresh, add string
	source     finding.Source
}

func pub(title string, e finding.Evidence) finding.Source {
	return finding.Source{Standard: title, Evidence: e}
}

// notices: England found; Wales, Scotland, Northern Ireland and Ireland found in
// public guidance; the others from memory.
var notices = []notice{
	{"England", "England: notifiable to building control, unless a registered installer or certifier handles it.",
		"England: not notifiable unless it reaches a special location such as a pool; it still has to be tested and recorded.",
		finding.Source{Standard: "Approved Document P", Clause: "England, since April 2013", Evidence: finding.Found}},
	{"Wales", "Wales: the shorter list of 2013 was for England only; a new circuit is notifiable.",
		"Wales: the shorter list of 2013 was for England only; garden work may be notifiable even as an addition, check the present Welsh list.",
		finding.Source{Standard: "Approved Document P", Clause: "Wales", Evidence: finding.Found}},
	{"Scotland", "Scotland: no Part P; the building standards system applies. Ask the local authority, or an approved certifier of construction, whether a warrant is needed for the new circuit.",
		"Scotland: no Part P; the building standards system applies. An addition to a house circuit mostly needs no warrant, but must meet the building standards; ask the local authority or an approved certifier.",
		pub("Scottish building standards, public guidance", finding.Found)},
	{"Northern Ireland", "Northern Ireland: no statutory notification scheme; a registered contractor is advised, and the certificate goes to the client.",
		"Northern Ireland: no statutory notification scheme; a registered contractor is advised, and the minor works certificate goes to the client.",
		pub("public guidance for Northern Ireland", finding.Found)},
	{"Ireland", "Ireland: for a registered electrical contractor only, who issues a completion certificate and registers it.",
		"Ireland: work on a fixed installation is for a registered electrical contractor; whether this addition counts as controlled work decides which certificate is issued.",
		pub("public guidance for Ireland", finding.Found)},
	{"Germany", "Germany: for an installer registered with the network operator.",
		"Germany: for an installer registered with the network operator.", pub("practice in Germany", finding.Memory)},
	{"Australia", "Australia: mains work needs a licence; the form of certificate differs by state.",
		"Australia: mains work needs a licence; the form of certificate differs by state.", pub("practice in Australia", finding.Memory)},
	{"New Zealand", "New Zealand: mains work needs a licence and a certificate from the licensed person.",
		"New Zealand: mains work needs a licence; a record of the work is issued.", pub("practice in New Zealand", finding.Memory)},
}

// notificationText returns what applies in a country.
func notificationText(country string, spur bool) (string, finding.Source) {
	for _, n := range notices {
		if strings.EqualFold(n.country, strings.TrimSpace(country)) {
			if spur {
				return n.add, n.source
			}
			return n.fresh, n.source
		}
	}
	if country == "" {
		return "The country is not given: the rules differ between England, Wales, Scotland, Northern Ireland and Ireland.",
			finding.Source{Standard: "Approved Document P and its counterparts", Evidence: finding.Found}
	}
	return "No notification rule is held for " + country + ": ask the local authority.", finding.Source{Evidence: finding.Practice}
}
