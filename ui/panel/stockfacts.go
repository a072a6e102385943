package panel

import (
	"strconv"
	"strings"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// milliamps writes a leakage the way makers do.
func milliamps(a q.Ampere) string {
	return strings.TrimSuffix(strconv.FormatFloat(float64(a)*1000, 'f', 1, 64), ".0") + " mA"
}

// supplyFacts tells what the stock book says of an item's leakage, inrush and
// dimming; what it does not say is left out.
func supplyFacts(leakage, inrush q.Ampere, dims network.Answer) string {
	out := ""
	if leakage > 0 {
		out += ", leakage " + milliamps(leakage)
	}
	if inrush > 0 {
		out += ", inrush " + inrush.String()
	}
	switch dims {
	case network.Yes:
		out += ", can be dimmed"
	case network.No:
		out += ", cannot be dimmed"
	}
	return out
}

// driverFacts tells what a constant-current source gives.
func driverFacts(c network.Converter) string {
	volts := "up to " + c.Most.String()
	if c.Least > 0 {
		volts = c.Least.String() + " to " + c.Most.String()
	}
	out := milliamps(c.Drive) + " constant current, " + volts + " " + c.Current.String()
	if float64(c.Rated) < float64(c.Drive)*float64(c.Most)*(1-1e-9) {
		out += ", " + c.Rated.String()
	}
	return out
}

// gearFacts tells the ratings of gear.
func gearFacts(g network.Gear) string {
	out := ""
	if g.Rating.Known {
		out += ", " + g.Rating.Value.String() + " resistive"
	}
	if g.LEDWatts.Known {
		out += ", " + g.LEDWatts.Value.String() + " of LED"
	}
	if g.LEDLamps.Known {
		out += ", " + g.LEDLamps.Value.String() + " LED lamps"
	}
	if g.Controls() && !g.LEDWatts.Known && !g.LEDLamps.Known {
		out += ", LED rating not known"
	}
	if g.DimMin.Known || g.DimMax.Known {
		out += ", dims "
		if g.DimMin.Known {
			out += "from " + g.DimMin.Value.String() + " "
		}
		if g.DimMax.Known {
			out += "up to " + g.DimMax.Value.String()
		}
	}
	if g.Threshold.Known {
		out += ", switches on below " + g.Threshold.Value.String()
	}
	if g.Standby.Known {
		out += ", standby " + g.Standby.Value.String()
	}
	if g.Metal {
		out += ", metal enclosure"
	}
	if g.Switching {
		out += ", isolates"
	}
	return out
}
