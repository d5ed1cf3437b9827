package job

// Missing counts the events that are known to exist and are not here: those
// before an event of the same stream, and those that a later stream or a seal
// says it had seen. A damaged file, or one saved on the way, leaves such holes;
// what a phone has kept to itself nobody can count.
func (s *State) Missing() int {
	known := map[string]int{} // stream → the last seq that somebody speaks of
	note := func(heads []Head) {
		for _, h := range heads {
			known[h.Stream] = max(known[h.Stream], h.Seq)
		}
	}
	for name, st := range s.stream {
		for seq, e := range st.at {
			known[name] = max(known[name], seq)
			if e.Open != nil {
				note(e.Open.After)
			}
		}
	}
	for _, seal := range s.others[Seal{}.Type()] {
		note(seal.Body.(Seal).Frontier)
	}
	n := 0
	for name, last := range known {
		n += last
		if st := s.stream[name]; st != nil {
			n -= len(st.at)
		}
	}
	return n
}
