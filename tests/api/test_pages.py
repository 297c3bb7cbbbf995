"""The first page and the documentation."""

import re

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.api.openapi import resources, shown_path
from service.errors import EVERY


@pytest.mark.parametrize("address", ["/", "/docs"])
def test_a_page_loads_nothing_from_outside(client: FlaskClient, address: str) -> None:
    """It works on a bench without a network."""
    page = client.get(address).get_data(as_text=True)
    assert not re.search(r"https?://|//[a-z]|<script|<img|<link|@import", page)


def test_every_link_of_the_first_page_is_answered(client: FlaskClient) -> None:
    """They are worked examples."""
    links = re.findall(r'href="([^"]+)"', client.get("/").get_data(as_text=True))
    assert len(links) >= 5
    for link in links:
        assert client.get(link.replace("&amp;", "&")).status_code == 200


def test_the_documentation_names_every_resource_object_and_error(app: Flask, client: FlaskClient) -> None:
    """Each error has the anchor that its type points to."""
    page = client.get("/docs").get_data(as_text=True)
    for one in resources(app):
        assert f"{one.method} {shown_path(one)}" in page
    for kind in EVERY:
        assert f'id="{kind.code}"' in page
    for anchor in re.findall(r'href="#(\w+)"', page):
        assert f'id="{anchor}"' in page
