"""Every example in a docstring is run."""

import doctest
import importlib
import pkgutil
from types import ModuleType

import pytest

import reference
import schemas
import service


def _modules() -> list[str]:
    found = []
    for package in (reference, schemas, service):
        found += [module.name for module in pkgutil.walk_packages(package.__path__, f"{package.__name__}.")]
    return [name for name in found if not name.endswith(("__main__", "service.wsgi", "service.serving"))]


@pytest.mark.parametrize("name", _modules())
def test_the_examples_of_a_module_hold(name: str) -> None:
    """What a docstring shows is what the function does."""
    module: ModuleType = importlib.import_module(name)
    assert doctest.testmod(module).failed == 0
