"""The single gate in: a folder, a zip or an upload of CSV tables becomes a checked season."""
