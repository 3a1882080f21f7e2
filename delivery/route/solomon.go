package route

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// biggestFile bounds the places of a file, since its matrix grows with their square.
const biggestFile = 2000

// ReadSolomon reads a problem in the text format of M. M. Solomon (Operations Research 35(2), 1987): a name, the number and
// capacity of the vehicles, then one line for each place with number, x, y, demand, ready time, due time and service time;
// place 0 is the depot. All times and distances are in tenths: distances are truncated to one decimal, as in the VRPTW track
// of the 12th DIMACS Implementation Challenge, and only distance counts.
func ReadSolomon(r io.Reader) (Problem, error) {
	var header []int64
	var places []solomonPlace
	in := bufio.NewScanner(r)
	for line := 1; in.Scan(); line++ {
		numbers, err := lineNumbers(in.Text())
		switch {
		case err != nil:
			return Problem{}, fmt.Errorf("line %d: %w", line, err)
		case len(numbers) == 0:
		case len(numbers) == 2 && header == nil:
			header = numbers
		case len(numbers) == 7 && header != nil:
			if numbers[0] != int64(len(places)) || len(places) == biggestFile {
				return Problem{}, fmt.Errorf("line %d: place %d where place %d of at most %d should be", line, numbers[0], len(places), biggestFile)
			}
			places = append(places, solomonPlace{numbers[1], numbers[2], numbers[3], numbers[4], numbers[5], numbers[6]})
		default:
			return Problem{}, fmt.Errorf("line %d: %d numbers, where the format has two (vehicles, capacity) and then seven for each place", line, len(numbers))
		}
	}
	if err := in.Err(); err != nil {
		return Problem{}, fmt.Errorf("reading the file: %w", err)
	}
	if header == nil || len(places) == 0 {
		return Problem{}, fmt.Errorf("no vehicles or no depot found: this is not a file in Solomon's format")
	}
	if header[0] < 0 || header[0] > biggestFile {
		return Problem{}, fmt.Errorf("%d vehicles: the number must be from 0 to %d", header[0], biggestFile)
	}
	return solomonProblem(int(header[0]), header[1], places)
}

type solomonPlace struct{ x, y, demand, ready, due, service int64 }

// solomonLimit bounds the numbers of a file so that tenths of them and of distances between them stay exact.
const solomonLimit = 1_000_000

// lineNumbers reads a line of numbers; a line with any word on it, or with nothing, is text and gives none.
func lineNumbers(line string) ([]int64, error) {
	fields := strings.Fields(line)
	numbers := make([]int64, len(fields))
	for i, f := range fields {
		x, err := strconv.ParseFloat(f, 64)
		if err != nil {
			return nil, nil
		}
		if x != math.Trunc(x) || math.Abs(x) > solomonLimit {
			return nil, fmt.Errorf("%s is not a whole number up to %d", f, solomonLimit)
		}
		numbers[i] = int64(x)
	}
	return numbers, nil
}

func solomonProblem(vehicles int, capacity int64, places []solomonPlace) (Problem, error) {
	p := Problem{Weights: Weights{Distance: 1, Unserved: 1 << 28}}
	for _, a := range places {
		row := make([]int64, len(places))
		for j, b := range places {
			row[j] = tenths(a.x-b.x, a.y-b.y)
		}
		p.Travel = append(p.Travel, row)
	}
	p.Distance = p.Travel
	for i, c := range places[1:] {
		p.Stops = append(p.Stops, Stop{Name: strconv.Itoa(i + 1), Place: i + 1, Service: 10 * c.service,
			Window: [2]int64{10 * c.ready, 10 * c.due}, Drop: Load{Pieces: c.demand}})
	}
	for range min(vehicles, len(p.Stops)) { // no plan uses more than one for each stop
		p.Vehicles = append(p.Vehicles, Vehicle{From: 10 * places[0].ready, Until: 10 * places[0].due, Capacity: Load{Pieces: capacity}})
	}
	if err := p.Validate(); err != nil {
		return Problem{}, fmt.Errorf("the file cannot be solved: %w", err)
	}
	return p, nil
}

// tenths is the straight distance in tenths, truncated. The root is taken of a whole number, so it is exact.
func tenths(dx, dy int64) int64 {
	square := 100 * (dx*dx + dy*dy)
	root := int64(math.Sqrt(float64(square)))
	for root*root > square {
		root--
	}
	for (root+1)*(root+1) <= square {
		root++
	}
	return root
}
