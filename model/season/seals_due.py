"""The jars of this season that wait for a look at their seals, as far as they should be sealed."""

from datetime import date

from model.season.ledger import Standing
from model.season.season import Season
from model.season.unseen_seals import lost_of_batches, unconfirmed


def seals_due(
    season: Season, today: date, since: date, unsealed_share: float
) -> tuple[Standing, ...]:
    """Give what the jars put up since a day should add to the shelf once they are looked at.

    A plan counts on them, or it would have them filled again; the book does not.
    """
    lost = lost_of_batches(season, today)
    return tuple(
        Standing(
            batch.preserve,
            batch.put_up,
            (batch.filled - lost[batch.code]) * (1 - unsealed_share),
            since=batch.put_up,
        )
        for batch in unconfirmed(season, today)
        if batch.put_up >= since
    )
