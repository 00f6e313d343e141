"""A plan lived through simulated years, all years at once; it knows nothing of the optimiser."""
