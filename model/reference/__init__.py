"""Facts about the world, shipped with the package, each row with its source."""
