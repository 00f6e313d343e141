"""A pile split in one go."""

from collections.abc import Mapping

import model


def split_glut(
    planned: model.PlannedSeason,
    pile_kg: Mapping[str, float],
    hours: float,
    bruised_kg: Mapping[str, float] | None = None,
) -> model.GlutSplit:
    """Split a pile of which nothing was asked before."""
    return model.Glut(planned, pile_kg, bruised_kg).split(hours)
