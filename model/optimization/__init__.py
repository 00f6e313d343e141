"""Plan-making: a mixed-integer linear program over numbers and names only."""
