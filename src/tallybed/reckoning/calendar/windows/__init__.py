"""When a crop can be sown, set out and picked: freezes, windows, crops of winter."""
