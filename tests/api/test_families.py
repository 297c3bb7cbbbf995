"""``/v1/families`` lists every family with what its size names, examples and sources."""

from flask.testing import FlaskClient

from reference.families import all_families


def test_every_family_is_listed_with_examples(client: FlaskClient) -> None:
    """Each declared family that is a part stands in the list, with examples, a source and its designation rule."""
    listed = client.get("/v1/families").get_json()["families"]
    assert [family["family"] for family in listed] == [family.name for family in all_families() if not family.generic]
    for family in listed:
        assert family["examples"], family["family"]
        assert family["source"], family["family"]
        assert family["size_names"], family["family"]


def test_families_as_a_sheet(client: FlaskClient) -> None:
    """The CSV has a row a family, lists joined by semicolons."""
    rows = client.get("/v1/families.csv").get_data(as_text=True).splitlines()
    assert rows[0].startswith("family,size_names,standards")
    assert any(row.startswith("parallel pin,outer diameter,") for row in rows)


def test_families_as_words(client: FlaskClient) -> None:
    """The plain text names the families, a line each."""
    assert "socket head cap screw" in client.get("/v1/families.txt").get_data(as_text=True).split("\n")
