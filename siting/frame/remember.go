package frame

// remembered keeps the last passive coefficient worked out, because a search
// asks for the same one over and over.
type remembered struct{ friction, fall, value float64 }

func (r *remembered) passive(friction, fall float64) float64 {
	if r.value == 0 || r.friction != friction || r.fall != fall {
		*r = remembered{friction, fall, Passive(friction, fall)}
	}
	return r.value
}
