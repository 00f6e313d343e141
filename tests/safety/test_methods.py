import pytest

from model.safety.methods import cautions_for, ways_that_remain


def test_green_beans_can_be_frozen_dried_or_dilled() -> None:
    ways = ways_that_remain("bush bean")

    assert ways[0] == "freeze"
    assert "dry" in ways
    assert "tested recipe: Beans, dilled" in ways


def test_cabbage_can_go_to_the_root_store_or_the_crock() -> None:
    assert {"root store", "ferment"} <= set(ways_that_remain("cabbage"))


def test_something_unknown_can_always_be_frozen() -> None:
    assert ways_that_remain("roast unicorn") == ["freeze"]


def test_the_general_caution_is_always_shown() -> None:
    assert "Follow a current tested recipe" in cautions_for(set())[0]
    assert any("acid" in caution.lower() for caution in cautions_for({"acid added"}))
    assert not any("fresh packs" in caution for caution in cautions_for({"canning"}))


@pytest.mark.parametrize(
    ("tag", "words"),
    [
        # USDA AIB 539 guide 1
        ("canning", "whole time from the start"),
        ("canning", "open kettle"),
        ("canning", "not saved by boiling"),
        ("low-acid", "treated as toxic"),
        # Food Safety Information Council (Australia); the shorter end of the advice
        ("canning", "within 4 days"),
        # common practice, no source
        ("boiling water", "25-30 mm"),
        # University of Illinois Extension
        ("freeze", "Blanch"),
        # North Dakota State University Extension FN189; Michigan State University 01600078
        ("pickle", "24 hours"),
        ("ferment", "24 to 48 hours"),
        # Michigan State University Extension 01600107
        ("sterilise", "one minute more for each further 1,000 ft"),
    ],
)
def test_each_caution_is_shown_where_it_belongs(tag: str, words: str) -> None:
    assert any(words in caution for caution in cautions_for({tag}))
    assert not any(words in caution for caution in cautions_for(set()))
