"""The entry point for any WSGI server: ``service.wsgi:app``."""

from service.app import create_app

app = create_app()
