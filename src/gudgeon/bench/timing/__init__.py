"""Is it timed: the drive of the camshafts, its marks, and the proof that they stand right."""
