"""Failed seals that share a cause: a box of lids, a size of jar, a preserve.

A bad batch is one in which a fifth or more of the jars did not seal. Of every value that two
or more batches share, Fisher's exact test says how often chance alone would put so many of the
bad batches there; it is told only where that is seldom, for all values looked at together
(Bonferroni). It points at where to look, and proves nothing.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from scipy import stats

from model.learning.seal_rate import CLUMP_LEAST, Looked, looked_at
from model.season.season import Season

SELDOM = 0.05
FEWEST_BATCHES = 2


@dataclass(frozen=True, slots=True)
class SharedCause:
    """What bad batches have in common, beside all other batches looked at.

    ``by_chance`` is how often chance alone does this for any of the values looked at.
    """

    kind: str
    name: str
    bad: int
    batches: int
    failed: int
    filled: int
    other_bad: int
    other_batches: int
    by_chance: float


def shared_causes(season: Season, today: date) -> list[SharedCause]:
    """List what bad batches have in common beyond chance, the least likely chance first."""

    def jar(one: Looked) -> str:
        return season.preserve(one.batch.preserve).jar or ""

    kinds: dict[str, Callable[[Looked], str]] = {
        "box of lids": lambda one: one.batch.lid_box,
        "size of jar": jar,
        "preserve": lambda one: one.batch.preserve,
    }
    seen = looked_at(season, today)
    groups: list[tuple[str, str, list[Looked]]] = []
    for kind, name_of in kinds.items():
        for name in sorted({name_of(one) for one in seen} - {""}):
            own = [one for one in seen if name_of(one) == name]
            if FEWEST_BATCHES <= len(own) < len(seen):
                groups.append((kind, name, own))
    causes = [_compared(kind, name, own, seen, len(groups)) for kind, name, own in groups]
    told = [cause for cause in causes if cause.by_chance < SELDOM]
    return sorted(told, key=lambda cause: cause.by_chance)


def _compared(
    kind: str, name: str, own: list[Looked], seen: list[Looked], groups: int
) -> SharedCause:
    bad, all_bad = _bad(own), _bad(seen)
    chance = float(stats.hypergeom.sf(bad - 1, len(seen), all_bad, len(own)))
    return SharedCause(
        kind=kind,
        name=name,
        bad=bad,
        batches=len(own),
        failed=sum(one.failed for one in own),
        filled=sum(one.filled for one in own),
        other_bad=all_bad - bad,
        other_batches=len(seen) - len(own),
        by_chance=min(1.0, chance * groups),
    )


def _bad(looked: list[Looked]) -> int:
    return sum(one.failed >= CLUMP_LEAST * one.filled for one in looked)
