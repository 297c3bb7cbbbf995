"""The entry point for any WSGI server: ``service.wsgi:app``."""

import sys

from service.access import NoTokens
from service.app import create_app
from service.config import SettingError
from service.store.engine import AddressError, Unavailable

try:
    app = create_app()
except (NoTokens, SettingError, AddressError, Unavailable) as error:
    # What the operator can put right needs no trace of the program.
    sys.exit(f"Kitproof does not start: {error}")
