"""The single gate in: a folder, a zip or an upload of CSV tables becomes a checked season.

Quantities are kg, m2, m, ml, minutes and degrees C inside, altitudes exact feet. What takes a
``Desk`` puts every fault on it, gives the sound rest and raises nothing; the gate raises
``SeasonProblems`` once, with all of them.
"""
