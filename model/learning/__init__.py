"""What the household's own record teaches: how many jars seal, and how much is eaten when."""
