"""Every example in a docstring of the gear comes out as it is printed."""

import doctest
import importlib
import pkgutil

import pytest

import core.gear

MODULES = [
    found.name for found in pkgutil.walk_packages(core.gear.__path__, "core.gear.")
]  # fmt: skip


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_of_a_module_are_true(name: str) -> None:
    result = doctest.testmod(importlib.import_module(name))
    assert result.failed == 0


def test_there_are_examples() -> None:
    tried = [doctest.testmod(importlib.import_module(name)).attempted for name in MODULES]
    assert sum(tried) >= 30
