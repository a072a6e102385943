package check

import "duskwire/calc/finding"

// PRT-01: what else has to be asked before the work: a prompt, not advice.
// Source: public guidance on planning, protected trees, bats and services
// (found).
var permissionRule = Rule{Code: "PRT-01", Title: "Permissions to ask about", Run: permission}

func permission(c *Context, emit func(finding.Finding)) {
	if c.plan.supply < 0 || c.Country == "" {
		return
	}
	asks := []string{
		"planning: a listed building, a conservation area or a dark-sky area may need consent",
		"trees: a preservation order or conservation area asks for consultation before roots are cut",
		"wildlife: lighting or disturbing a bat roost is an offence",
		"services: plans are only approximate; locate before digging",
		"owners: lease, shared wall, neighbour's fence",
	}
	var w lines
	w.add("country: %s", countryName(c.Country))
	for _, a := range asks {
		w.add("%s", a)
	}
	emit(finding.Finding{Code: "PRT-01", Level: finding.Note, Subject: c.supplySubject(),
		Source: finding.Source{Standard: "public guidance on planning, trees, bats and services", Evidence: finding.Found},
		Text:   "permissions to ask about: planning and listed buildings, protected trees, bats, buried services, owners", Working: w.String()})
}
