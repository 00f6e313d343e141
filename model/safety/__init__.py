"""What may be kept how: looked up, and nothing here can be overridden by a setting."""
