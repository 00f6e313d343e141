"""How much the bad years weigh, in the household's words."""

from model.optimization.two_stage import Tail
from model.season.settings import PLAN_FOR

OUTLOOKS = dict(
    zip(
        PLAN_FOR,
        (Tail(share=1.0, weight=0.0), Tail(share=0.2, weight=0.5), Tail(share=0.1, weight=0.8)),
        strict=True,
    )
)
