"""How much of what to plant: chosen for the years that may come, or worked out by hand."""
