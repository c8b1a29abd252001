package fluid

import "crosslay/bot/check"

// Volume is a volume in the unit in which a department speaks of it.
type Volume struct {
	Amount float64
	Unit   check.Unit
}

// In is millilitres in what people pour from: fluid ounces and quarts, or, in a
// department that writes metric, millilitres and litres.
func In(ml float64, metric bool) Volume {
	small, large := check.Unit("fl oz"), check.Unit("qt")
	if metric {
		small, large = "mL", "L"
	}
	unit := small
	if one, _ := check.Convert(1, large, "mL"); ml >= one {
		unit = large
	}
	amount, _ := check.Convert(ml, "mL", unit)
	return Volume{amount, unit}
}
