"""The commands of ``python -m model``: what each is given, and what it prints."""
