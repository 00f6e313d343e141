"""A plan lived through made-up years, all years at once; it knows nothing of the optimiser."""
