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
