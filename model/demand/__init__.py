"""What the household wants to eat, when, and in which weeks the garden does not give it."""
