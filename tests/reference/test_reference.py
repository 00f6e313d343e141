from importlib.resources import files

import pytest

from model.errors import NotInTables
from model.reference.lookup import (
    age_scale,
    containers,
    crop,
    densest_pack,
    fresh_per_jar,
    keeping,
    portion,
    product_crops,
    settings,
)
from model.reference.read import TABLES, source_title, table
from model.season.settings import Settings

SAFETY = ("process_times", "products", "altitude_bands", "acid_amounts", "canner_steps")


def test_every_row_of_every_table_names_sources_that_are_listed() -> None:
    known = {row["key"] for row in table("sources")}
    for name in TABLES:
        if name == "sources":
            continue
        for number, row in enumerate(table(name), start=2):
            assert row["source"], f"{name} row {number} has no source"
            for column in (heading for heading in row if heading.endswith("source")):
                keys = {key for key in row[column].split(";") if key}
                assert keys <= known, f"{name} row {number}: {row[column]}"


def test_every_source_is_used_and_named() -> None:
    used = {
        key
        for name in TABLES
        if name != "sources"
        for row in table(name)
        for column, keys in row.items()
        if column.endswith("source")
        for key in keys.split(";")
    }
    for row in table("sources"):
        assert row["title"]
        assert row["key"] in used, f"{row['key']} is not used"


def test_every_shipped_file_is_a_table_that_is_read() -> None:
    shipped = {f.name for f in files("model.reference").iterdir() if f.name.endswith(".csv")}

    assert shipped == {f"{name}.csv" for name in TABLES}


def test_no_safety_row_rests_on_memory_or_low_confidence() -> None:
    remembered = {"memory", "low", "practice", "judgement"}
    for name in SAFETY:
        for row in table(name):
            assert row.get("status", "published") not in remembered
            assert row.get("confidence", "high") not in remembered


def test_no_caution_with_a_number_rests_on_memory() -> None:
    for row in table("cautions"):
        if row["status"] == "memory":
            assert not any(letter.isdigit() for letter in row["caution"])


def test_at_least_32_crops_that_households_put_up_have_yields_and_times() -> None:
    names = [row["crop"] for row in table("crops")]

    assert len(names) == len(set(names)) >= 32
    for name in names:
        known = crop(name)
        assert known.yields, name
        assert known.hold_days > 0
        assert 0 < known.edible_share <= 1
        assert known.picking_days_low <= known.picking_days_high
        for published in known.yields:
            assert 0 < published.kg_low <= published.kg_typical <= published.kg_high


def test_a_crop_is_found_by_its_us_and_uk_names() -> None:
    assert crop("Zucchini") == crop("courgette") == crop("summer squash")
    assert crop("rutabaga").name == "swede"


def test_an_unknown_name_is_answered_with_its_neighbours() -> None:
    with pytest.raises(NotInTables, match="did you mean tomato"):
        crop("tomatoe")
    with pytest.raises(NotInTables, match="vegetable"):
        portion("vegetables")


def test_a_product_of_several_crops_has_a_weight_for_each() -> None:
    parts = {
        weight.crop: weight.kg_per_l
        for weight in fresh_per_jar("Salsa, hot tomato-pepper", "tomato")
    }

    assert set(parts) == {"tomato", "pepper", "onion"}
    assert parts["tomato"] > parts["pepper"] > parts["onion"] > 0
    paste = fresh_per_jar("Salsa, hot tomato-pepper", "paste tomato")
    assert [weight.crop for weight in paste] == ["paste tomato", "pepper", "onion"]


def test_a_recipe_of_several_crops_names_each_and_bounds_each() -> None:
    assert {"tomato", "pepper", "onion"} <= set(product_crops("Salsa, hot tomato-pepper"))
    assert product_crops("Applesauce") == ("apple",)
    # Oklahoma State University Extension: 1 lb of onions in a batch of 6 to 8 pints
    assert densest_pack("Salsa, hot tomato-pepper")["onion"] == pytest.approx(
        0.45359237 / (6 * 0.473176473), abs=0.001
    )


def test_what_is_not_published_sets_no_limit_to_a_pack() -> None:
    assert densest_pack("Jam or jelly with added pectin") == {}
    assert densest_pack("Beans, dilled") == {}


def test_a_thick_sauce_may_hold_more_than_a_thin_one() -> None:
    thin, thick = (
        densest_pack("Tomato sauce, standard (thin or thick)", style) for style in ("thin", "thick")
    )

    assert thin[""] < thick[""] == densest_pack("Tomato sauce, standard (thin or thick)", "x")[""]


def test_a_crop_without_a_life_of_its_own_takes_the_one_for_any() -> None:
    assert keeping("freeze", "carrot") == keeping("freeze", "any")
    assert keeping("freeze", "tomato") != keeping("freeze", "any")
    assert keeping("root store", "tomato") is None


def test_a_bushel_weighs_what_the_canning_guide_prints() -> None:
    # USDA Complete Guide to Home Canning, AIB 539: "a bushel weighs 53 pounds" of tomatoes, 30
    # of snap beans, 48 of apples and of peaches
    pounds = {"tomato": 53, "bush bean": 30, "apple": 48, "peach": 48}

    for name, lb in pounds.items():
        assert containers(name)["bushel"] == pytest.approx(lb * 0.45359237, abs=0.005)


def test_every_crop_is_picked_by_the_scale_and_into_what_holds_it() -> None:
    names = {row["crop"] for row in table("crops")}

    assert {row["crop"] for row in table("containers")} <= names | {"any"}
    for name in names:
        assert {"kg", "lb", "bunch"} <= set(containers(name))
        assert all(kg > 0 for kg in containers(name).values())
    assert "head" in containers("cabbage")
    assert "head" not in containers("sweet corn")


def test_a_crop_has_one_weight_for_a_container() -> None:
    known = [(row["container"], row["crop"]) for row in table("containers")]

    assert len(known) == len(set(known))


def test_portions_grow_with_age_and_babies_eat_nothing_from_the_plan() -> None:
    by_age = [age_scale("vegetable", age, "male") for age in (0, 1, 3, 8, 12, 16, 25)]

    assert by_age[:2] == [0.0, 0.0]
    assert by_age == sorted(by_age)
    both = age_scale("vegetable", 40, "")
    assert age_scale("vegetable", 40, "female") < both < age_scale("vegetable", 40, "male")


def test_the_settings_are_those_of_the_judgement_table() -> None:
    names = {row["setting"] for row in table("judgements")}

    assert names == set(Settings.__dataclass_fields__)
    for row in table("judgements"):
        assert float(row["least"]) <= float(row["value"]) <= float(row["most"])
        assert getattr(settings(), row["setting"]) == float(row["value"])


def test_a_source_key_becomes_a_title() -> None:
    assert "Michigan State University Extension" in source_title("msu-01600772")
    assert source_title("uky-id128;ksu-mf315").count(";") == 1
