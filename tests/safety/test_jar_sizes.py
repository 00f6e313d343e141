from fractions import Fraction

import pytest

from model.safety.jar_sizes import covering_size, jar_ml

TESTED = ("half-pint", "pint", "quart")


@pytest.mark.parametrize(
    ("jar", "size"),
    [
        ("half-pint", "half-pint"),
        ("235 ml", "half-pint"),
        ("250 ml", "pint"),
        ("pint", "pint"),
        ("16 fl oz", "pint"),
        ("500 ml", "quart"),
        ("0.75 l", "quart"),
        ("Quart jar", "quart"),
    ],
)
def test_a_jar_takes_the_tested_size_that_is_equal_or_next_larger(jar: str, size: str) -> None:
    assert covering_size(jar_ml(jar), TESTED) == size


def test_a_jar_above_every_tested_size_has_none() -> None:
    assert covering_size(jar_ml("1 l"), TESTED) is None
    assert covering_size(Fraction(946353, 1000) + Fraction(1, 10**9), TESTED) is None


@pytest.mark.parametrize(
    "text", ["", "big", "0 ml", "-5 ml", "1e3 ml", "9" * 5000 + " ml", "pint and a half"]
)
def test_a_size_that_cannot_be_read_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="not a jar size"):
        jar_ml(text)
