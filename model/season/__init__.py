"""The nouns of a household's season: frozen, checked, free of files and solvers."""
