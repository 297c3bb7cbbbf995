"""Settings: typed, from the environment, and refused where they cannot be understood."""

from dataclasses import fields
from pathlib import Path

import pytest

from service.config import SettingError, Settings


def test_defaults_are_those_of_the_documentation() -> None:
    """Without any variable the service listens on loopback and keeps its data beside the checkout."""
    settings = Settings.from_environment({})
    assert (settings.host, settings.port) == ("127.0.0.1", 8383)
    checkout = Path(__file__).resolve().parents[1]
    assert settings.database_url == f"sqlite:///{checkout / 'var' / 'kitproof.sqlite3'}"
    assert settings.workers >= 1


def test_every_setting_has_a_meaning() -> None:
    """The documentation is made from it."""
    assert all(item.metadata["meaning"] for item in fields(Settings))


def test_a_variable_sets_its_field() -> None:
    """Numbers become numbers."""
    settings = Settings.from_environment({"KITPROOF_PORT": "9000", "KITPROOF_HOST": "192.0.2.1", "PATH": "/bin"})
    assert (settings.host, settings.port) == ("192.0.2.1", 9000)


def test_an_empty_variable_is_none() -> None:
    """Container files often pass variables on empty."""
    assert Settings.from_environment({"KITPROOF_PORT": ""}).port == 8383


@pytest.mark.parametrize(
    ("name", "value"),
    [("KITPROOF_PORT", "80a"), ("KITPROOF_PORT", "0"), ("KITPROOF_THREADS", "-1"), ("KITPROOF_WORKERS", "²")],
)
def test_a_value_of_the_wrong_kind_stops_the_start(name: str, value: str) -> None:
    """The message names the variable, its value and an example."""
    with pytest.raises(SettingError, match=f"{name}='{value}' is not accepted.*for example"):
        Settings.from_environment({name: value})


def test_a_misspelt_variable_stops_the_start() -> None:
    """Else a limit that was meant would silently not hold."""
    with pytest.raises(SettingError, match=r"KITPROOF_PROT is no setting; there are: .*KITPROOF_PORT"):
        Settings.from_environment({"KITPROOF_PROT": "1"})
