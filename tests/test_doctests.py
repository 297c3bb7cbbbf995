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
    return found


@pytest.mark.parametrize("name", [name for name in _modules() if name not in ("service.wsgi", "service.serving")])
def test_the_examples_of_a_module_hold(name: str) -> None:
    """What a docstring shows is what the function does."""
    module: ModuleType = importlib.import_module(name)
    assert doctest.testmod(module).failed == 0
