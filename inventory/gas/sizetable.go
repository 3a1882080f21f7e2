package gas

// Contents differ between sources, and water volumes and masses vary with the
// maker: the figures on the cylinder itself come first. Textbook factors are
// those taught for steel cylinders at 2,200 psi; the aluminium D and E of
// today hold more, so their factors err on the safe side.

const (
	post     = "post"
	threaded = "threaded"
	integral = "integral"

	kilogramsPerPound = 0.45359237 // NIST SP 811
)

func pounds(v float64) float64 { return v * kilogramsPerPound }

var (
	sizeTable  = shipped()
	sizeByCode = indexed(sizeTable)
)

func shipped() []Size {
	var all []Size
	all = append(all, northAmerica()...)
	all = append(all, unitedKingdom()...)
	all = append(all, byVolumeSizes()...)
	all = append(all, australia()...)
	for i := range all {
		s := &all[i]
		s.Code = SizeCode(s.Region + "-" + s.Letter)
		s.full = densityAt{s.Service, room.density(s.Service.Absolute())}
		if s.Factor > 0 {
			s.Figures.Factor = Published
		}
		s.workOut()
		s.weigh()
	}
	return all
}

func indexed(sizes []Size) map[string]Size {
	byCode := make(map[string]Size)
	for _, s := range sizes {
		for _, code := range s.codes() {
			byCode[code] = s
		}
	}
	return byCode
}

// northAmerica lists sizes whose contents are stated at 70 °F and 14.696 psia.
// Contents: consumer size tables and drug-code package lists; M, G and H:
// respiratory-therapy pages, 244 ft³ at 2,200 psi for H. Factors:
// respiratory-therapy textbooks. H mass: published, the heaviest of the range.
func northAmerica() []Size {
	low, high, steel := PSI(2015), PSI(2216), PSI(2200)
	return []Size{
		{Region: "US", Letter: "M2", WaterVolume: 0.3, Service: high, Contents: 42, EmptyMass: pounds(0.7), Valve: post, Figures: recalled},
		{Region: "US", Letter: "M4", Also: []string{"A"}, WaterVolume: 0.7, Service: high, Contents: 113, EmptyMass: pounds(1.6), Valve: post, Figures: published},
		{Region: "US", Letter: "M6", Also: []string{"B"}, WaterVolume: 1.0, Service: high, Contents: 164, EmptyMass: pounds(2.2), Valve: post, Figures: published},
		{Region: "US", Letter: "ML6", WaterVolume: 1.2, Service: low, Contents: 165, EmptyMass: pounds(2.9), Valve: post, Figures: published},
		{Region: "US", Letter: "M7", WaterVolume: 1.3, Service: high, Contents: 198, EmptyMass: pounds(3.3), Valve: post, Figures: recalled},
		{Region: "US", Letter: "M9", Also: []string{"C"}, WaterVolume: 1.7, Service: low, Contents: 255, EmptyMass: pounds(3.7), Valve: post, Figures: published},
		{Region: "US", Letter: "D", Also: []string{"MD", "M15"}, WaterVolume: 2.9, Service: low, Contents: 425, Factor: 0.16, EmptyMass: pounds(5.3), Valve: post, Figures: published},
		{Region: "US", Letter: "JD", Also: []string{"M22"}, WaterVolume: 3.9, Service: high, Contents: 640, Valve: post, Figures: recalled},
		{Region: "US", Letter: "E", Also: []string{"ME", "M24"}, WaterVolume: 4.64, Service: low, Contents: 682, Factor: 0.28, EmptyMass: pounds(7.9), Valve: post, Figures: published},
		{Region: "US", Letter: "M60", WaterVolume: 10.8, Service: high, Contents: 1738, EmptyMass: pounds(22), Valve: threaded, Figures: published},
		{Region: "US", Letter: "M", WaterVolume: 21.5, Service: steel, Contents: 3450, Factor: 1.56, EmptyMass: pounds(75), Valve: threaded, Figures: worked},
		{Region: "US", Letter: "MM", WaterVolume: 21.4, Service: high, Contents: 3455, EmptyMass: pounds(38.6), Valve: threaded, Figures: recalled},
		{Region: "US", Letter: "G", WaterVolume: 33.0, Service: steel, Contents: 5300, Factor: 2.41, EmptyMass: pounds(100), Valve: threaded, Figures: worked},
		{Region: "US", Letter: "H", Also: []string{"K"}, WaterVolume: 43.8, Service: steel, Contents: 6909, Factor: 3.14, EmptyMass: pounds(139), Valve: threaded, Figures: weighed},
	}
}

// unitedKingdom lists sizes whose labels state litres at 15 °C and a filling
// pressure at 15 °C. The two references err in opposite ways, 2 % and 3 %, so
// the label is taken as it stands. D, F, CD: Emergency Medicine Journal 2006;
// the others, and all valves, from memory.
func unitedKingdom() []Size {
	return []Size{
		{Region: "UK", Letter: "C", WaterVolume: 1.2, Service: Bar(137), Contents: 170, Valve: post, Figures: recalled},
		{Region: "UK", Letter: "D", WaterVolume: 2.32, Service: Bar(137), Contents: 340, Valve: post, Figures: charted},
		{Region: "UK", Letter: "CD", WaterVolume: 2.0, Service: Bar(230), Contents: 460, Valve: integral, Figures: idealLabel},
		{Region: "UK", Letter: "ZD", WaterVolume: 2.0, Service: Bar(300), Contents: 605, Valve: integral, Figures: recalled},
		{Region: "UK", Letter: "E", WaterVolume: 4.68, Service: Bar(137), Contents: 680, Valve: post, Figures: recalled},
		{Region: "UK", Letter: "F", WaterVolume: 9.43, Service: Bar(137), Contents: 1360, Valve: threaded, Figures: charted},
		{Region: "UK", Letter: "HX", WaterVolume: 10.0, Service: Bar(230), Contents: 2300, Valve: integral, Figures: idealMemory},
		{Region: "UK", Letter: "ZX", WaterVolume: 10.0, Service: Bar(300), Contents: 3040, Valve: integral, Figures: recalled},
		{Region: "UK", Letter: "G", WaterVolume: 23.6, Service: Bar(137), Contents: 3400, Valve: threaded, Figures: recalled},
		{Region: "UK", Letter: "J", WaterVolume: 47.2, Service: Bar(137), Contents: 6800, Valve: post, Figures: recalled},
	}
}

// byVolumeSizes lists sizes named by their water volume. The factor of 1.07
// is a European supplier's for oxygen at 200 bar.
func byVolumeSizes() []Size {
	size := func(region, letter string, litres float64, full Pressure, contents Litres, figures Figures) Size {
		return Size{Region: region, Letter: letter, Also: []string{letter + "L", letter + " L"}, WaterVolume: litres,
			Service: full, Contents: contents, Valve: threaded, Figures: figures}
	}
	return []Size{
		size("EU", "2", 2, Bar(200), 428, byFactor),
		size("EU", "5", 5, Bar(200), 1070, byFactor),
		size("EU", "10", 10, Bar(200), 2140, byFactor),
		size("EU", "50", 50, Bar(200), 10_700, bothRead),
		size("CN", "40", 40, Bar(150), 6000, byVolume),
	}
}

// australia lists sizes by the contents in the TSANZ guideline on domiciliary
// oxygen (2014), the least where it gives a range; how long each lasts at
// 2 L/min stands beside it and agrees. The same letter is a far larger cylinder
// here than in North America or the United Kingdom.
func australia() []Size {
	full := Bar(150) // from memory: 15 to 16.3 MPa, the lowest
	return []Size{
		{Region: "AU", Letter: "C", Service: full, Contents: 550, Valve: post, Figures: guideline},
		{Region: "AU", Letter: "D", Service: full, Contents: 1500, Valve: post, Figures: guideline},
		{Region: "AU", Letter: "E", Service: full, Contents: 3800, Valve: threaded, Figures: guideline},
		{Region: "AU", Letter: "G", Service: full, Contents: 7600, Valve: threaded, Figures: guideline},
	}
}
