"""Tables for people: the only part of the model that makes pandas data frames."""
