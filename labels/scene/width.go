package scene

import "strings"

// Advance widths of the signs from space to tilde in thousandths of the em,
// read from the two fonts in labels/typeface (DejaVu Sans 2.37).
var (
	regularWidths = [...]int{
		318, 401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361, 318, 337,
		636, 636, 636, 636, 636, 636, 636, 636, 636, 636, 337, 337, 838, 838, 838, 531,
		1000, 684, 686, 698, 770, 632, 575, 775, 752, 295, 295, 656, 557, 863, 748, 787,
		603, 787, 695, 635, 611, 732, 684, 989, 685, 611, 685, 390, 337, 390, 838, 500,
		500, 613, 635, 550, 635, 615, 352, 635, 634, 278, 278, 579, 278, 974, 634, 612,
		635, 635, 411, 521, 392, 634, 592, 818, 592, 592, 525, 636, 337, 636, 838,
	}
	boldWidths = [...]int{
		348, 456, 521, 838, 696, 1002, 872, 306, 457, 457, 523, 838, 380, 415, 380, 365,
		696, 696, 696, 696, 696, 696, 696, 696, 696, 696, 400, 400, 838, 838, 838, 580,
		1000, 774, 762, 734, 830, 683, 683, 821, 837, 372, 372, 775, 637, 995, 837, 850,
		733, 850, 770, 720, 682, 812, 774, 1103, 771, 724, 725, 457, 365, 457, 838, 500,
		500, 675, 716, 593, 716, 678, 435, 716, 712, 343, 343, 665, 343, 1042, 712, 687,
		716, 716, 493, 595, 478, 712, 652, 924, 645, 652, 582, 712, 365, 712, 838,
	}
)

// otherWidth stands for every sign outside the tables: about a wide letter, so
// that layout leaves too much room rather than too little.
const otherWidth = 700

// Width returns how wide a text is at the given size in the program's fonts, in
// points. It is exact for plain ASCII but for kerning, and an estimate beyond.
func Width(text string, size float64, bold bool) float64 {
	widths := &regularWidths
	if bold {
		widths = &boldWidths
	}
	sum := 0
	for _, r := range text {
		if i := int(r) - ' '; i >= 0 && i < len(widths) {
			sum += widths[i]
			continue
		}
		sum += otherWidth
	}
	return float64(sum) * size / 1000
}

// Shortened returns text cut to fit in w points, with an ellipsis where it was
// cut, and "" when not even one sign fits.
func Shortened(text string, size float64, bold bool, w float64) string {
	if Width(text, size, bold) <= w {
		return text
	}
	signs := []rune(text)
	for n := len(signs) - 1; n > 0; n-- {
		cut := strings.TrimRight(string(signs[:n]), " ") + "…"
		if Width(cut, size, bold) <= w {
			return cut
		}
	}
	return ""
}
