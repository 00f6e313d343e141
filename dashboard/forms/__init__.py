"""Forms: widgets that give what the household chose."""
