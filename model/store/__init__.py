"""What the household keeps: its notes and its record in one SQLite file, every version of it.

Rows are text, as in the tables of a folder, and pass the same gate. Nothing is changed or
deleted: a correction is a newer version of a row, an undo is the version before once more.
"""
