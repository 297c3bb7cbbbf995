"""Which version of the service runs."""

from functools import cache
from importlib.metadata import PackageNotFoundError, version


@cache
def service_version() -> str:
    """Return the version of the installed service, ``checkout`` where it runs from its sources."""
    try:
        return version("kitproof-service")
    except PackageNotFoundError:
        return "checkout"
