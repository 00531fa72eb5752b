package table

// ZoneWords names a place on this kind of table in words a student would use:
// "foot end, left side", "between the head string and the centre, middle".
// The bands along the table are the four quarters between the strings; across
// it the middle half is "middle". A ball within half a ball of a cushion is
// "on" that rail.
func (k Kind) ZoneWords(p Place) string {
	return k.bandAlong(p.Y) + ", " + k.bandAcross(p.X)
}

func (k Kind) bandAlong(y Inches) string {
	length := k.Length()
	switch {
	case y <= BallDiameter:
		return "on the head rail"
	case y >= length-BallDiameter:
		return "on the foot rail"
	case y < length/4:
		return "behind the head string"
	case y <= length/2:
		return "between the head string and the centre"
	case y <= length*3/4:
		return "between the centre and the foot spot"
	}
	return "foot end"
}

func (k Kind) bandAcross(x Inches) string {
	fromLongString := max(x, FlipSign(x))
	switch {
	case fromLongString <= k.Width()/4:
		return "middle"
	case fromLongString >= k.Width()/2-BallDiameter:
		return "on the " + string(SideOf(x)) + " rail"
	}
	return string(SideOf(x)) + " side"
}
