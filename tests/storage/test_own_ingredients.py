from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from workbench.errors import WorkbenchError
from workbench.formula.ingredient import Ingredient, Part
from workbench.formula.supply import Supply
from workbench.storage.attachments import OTHER

OAT = Ingredient(
    key="oat-milk",
    name="Oat milk",
    inci="Avena Sativa Kernel Extract",
    functions=("emollient",),
    composition=(Part("water", Decimal(1)),),
    is_own=True,
)


def test_that_an_own_ingredient_is_changed_over_the_state_of_its_counter(studio):
    studio.ingredients.add_own(OAT)
    stored, counter = studio.ingredients.entry("oat-milk")
    assert stored == OAT
    changed = replace(OAT, name="Oat drink", use_max=Decimal(5))
    assert studio.ingredients.update_own(changed, counter) == counter + 1
    assert studio.ingredients.entry("oat-milk") == (changed, counter + 1)
    assert [hit.key for hit in studio.search("oat drink")] == ["oat-milk"]


def test_that_search_forgets_the_former_name(studio):
    studio.ingredients.add_own(replace(OAT, name="Quillmallow"))
    studio.ingredients.update_own(OAT, 1)
    assert studio.search("quillmallow") == ()


def test_that_a_change_over_an_older_state_is_refused(studio):
    studio.ingredients.add_own(OAT)
    studio.ingredients.update_own(replace(OAT, name="Oat drink"), 1)
    with pytest.raises(WorkbenchError, match="changed in another window"):
        studio.ingredients.update_own(replace(OAT, name="Oat water"), 1)
    assert studio.ingredients.entry("oat-milk")[0].name == "Oat drink"


def test_that_a_shipped_ingredient_is_neither_changed_nor_deleted(studio):
    glycerin, counter = studio.ingredients.entry("glycerin")
    with pytest.raises(WorkbenchError, match="comes with the program"):
        studio.ingredients.update_own(replace(glycerin, name="Mine"), counter)
    with pytest.raises(WorkbenchError, match="comes with the program"):
        studio.ingredients.delete_own("glycerin")
    assert studio.ingredients.entry("glycerin") == (glycerin, counter)


def test_that_an_own_ingredient_in_use_is_not_deleted(studio, make_formula):
    studio.ingredients.add_own(OAT)
    studio.formulas.create("Oat mist", make_formula(("water", "rest"), ("oat-milk", "2")))
    with pytest.raises(WorkbenchError, match="Oat mist"):
        studio.ingredients.delete_own("oat-milk")


def test_that_a_deleted_ingredient_takes_its_supply_and_files_along(studio, tmp_path):
    studio.ingredients.add_own(OAT)
    studio.supplies.save(Supply("oat-milk", on_hand=True))
    note = tmp_path / "note.txt"
    note.write_text("pressed on Tuesday")
    studio.attachments.add("oat-milk", note, OTHER)
    studio.ingredients.delete_own("oat-milk")
    assert studio.ingredients.get(["oat-milk"]) == {}
    assert studio.supplies.all() == {}
    assert studio.attachments.of("oat-milk") == ()
    assert [hit.key for hit in studio.search("oat milk")] != ["oat-milk"]


def test_that_uses_are_found_through_every_stock(studio, make_formula):
    studio.ingredients.add_own(OAT)
    inner = make_formula(("water", "rest"), ("oat-milk", "2"), product_type="stock")
    outer = make_formula(("water", "rest"), ("inner", "20"), product_type="stock")
    studio.formulas.create("Inner", inner)
    studio.formulas.create("Outer", outer)
    studio.formulas.create("Mist", make_formula(("outer", "rest")))
    studio.formulas.archive(studio.formulas.create("Cream", make_formula(("oat-milk", "rest"))))
    uses = studio.ingredients.used_in("oat-milk")
    assert [(use.name, use.through, use.archived) for use in uses] == [
        ("Cream", "", True),
        ("Inner", "", False),
        ("Mist", "Outer", False),
        ("Outer", "Inner", False),
    ]
    assert studio.ingredients.used_in("glycerin") == ()


def test_that_stocks_in_a_circle_end_the_search(studio, make_formula):
    studio.formulas.create("One", make_formula(("two", "rest"), product_type="stock"))
    studio.formulas.create("Two", make_formula(("one", "rest"), product_type="stock"))
    assert [use.key for use in studio.ingredients.used_in("one")] == ["two"]


def test_that_an_ingredient_nobody_has_is_refused_by_its_key(studio):
    with pytest.raises(WorkbenchError, match="'mystery'"):
        studio.ingredients.entry("mystery")


def test_that_the_list_of_the_shelf_says_what_each_ingredient_is(studio, shipped_count):
    studio.ingredients.add_own(OAT)
    studio.supplies.set_on_hand("glycerin", on_hand=True)
    listed = {item.key: item for item in studio.ingredients.listed()}
    assert len(listed) == shipped_count + 1
    glycerin = listed["glycerin"]
    whole = studio.ingredients.get(["glycerin"])["glycerin"]
    assert (glycerin.name, glycerin.inci, glycerin.functions) == (
        whole.name,
        whole.inci,
        whole.functions,
    )
    assert (glycerin.solubility, glycerin.charge) == (whole.solubility, whole.charge)
    assert glycerin.is_there
    assert not glycerin.is_own
    assert listed["oat-milk"].is_own
    assert not listed["oat-milk"].is_there
