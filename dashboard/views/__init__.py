"""The three places; each file is one page."""
