"""A target by its exact id, without the index of names."""

import pytest

from core.catalogue.targets import TargetTable


@pytest.fixture(scope="module")
def table() -> TargetTable:
    return TargetTable.load()


@pytest.mark.parametrize("target_id", ["M 31", "NGC 7000", "Scene Veil", "B 33"])
def test_an_id_finds_its_own_row(table: TargetTable, target_id: str) -> None:
    found = table.with_id(target_id)
    assert found is not None
    assert found.id == target_id
    assert found == table.find(target_id)


@pytest.mark.parametrize("text", ["M", "m 31", "NGC 224", "", "M 3|", "Andromeda Galaxy"])
def test_what_is_no_id_finds_nothing(table: TargetTable, text: str) -> None:
    assert table.with_id(text) is None


def test_every_id_is_there_once(table: TargetTable) -> None:
    ids = [table.target(row).id for row in range(len(table))]
    assert len(set(ids)) == len(ids)
