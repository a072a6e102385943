package file

import (
	"duskwire/assets"
	"duskwire/calc/check"
	"duskwire/layout/doc"
)

// Shipped returns the stock book and the rule sets that come with the program.
// stockPath and rulesPath, when not empty, name files of the user's own: their
// stock items come before the shipped ones, their rule set takes the place of
// a shipped one with the same key or is added at the end.
func Shipped(stockPath, rulesPath string) (doc.Stock, []*check.Rules, error) {
	stock, err := Stock(assets.FS)
	if err != nil {
		return doc.Stock{}, nil, err
	}
	rules, err := Rules(assets.FS)
	if err != nil {
		return doc.Stock{}, nil, err
	}
	if stockPath != "" {
		data, err := readLimited(stockPath)
		if err != nil {
			return doc.Stock{}, nil, told("open", stockPath, err)
		}
		own, err := ReadStock(stockPath, data, assets.FS)
		if err != nil {
			return doc.Stock{}, nil, err
		}
		stock = stock.Over(own)
	}
	if rulesPath != "" {
		data, err := readLimited(rulesPath)
		if err != nil {
			return doc.Stock{}, nil, told("open", rulesPath, err)
		}
		own, err := ReadRules(rulesPath, data, assets.FS)
		if err != nil {
			return doc.Stock{}, nil, err
		}
		rules = withRules(rules, own)
	}
	return stock, rules, nil
}

func withRules(rules []*check.Rules, own *check.Rules) []*check.Rules {
	for i, r := range rules {
		if r.Key == own.Key {
			rules[i] = own
			return rules
		}
	}
	return append(rules, own)
}

// Keys returns the keys of rule sets, for ReadScheme and LoadScheme.
func Keys(rules []*check.Rules) []string {
	keys := make([]string, 0, len(rules))
	for _, r := range rules {
		keys = append(keys, r.Key)
	}
	return keys
}
