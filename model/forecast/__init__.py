"""What the garden is expected to give, week by week, and by how much that varies."""
