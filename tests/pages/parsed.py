"""A page as a tree: every page is also well-formed XML."""

from xml.etree import ElementTree

from flask.testing import FlaskClient


class Parsed:
    """The elements and the text of a page."""

    def __init__(self, text: str) -> None:
        """Read a page."""
        self.text = text
        self.root = ElementTree.fromstring(text.split("\n", 1)[1])  # noqa: S314 - our own

    def all(self, path: str) -> list[ElementTree.Element]:
        """Return elements by their path."""
        return self.root.findall(path)

    def texts(self, path: str) -> list[str]:
        """Return what can be read in each element of a path."""
        return [" ".join("".join(one.itertext()).split()) for one in self.all(path)]

    def one(self, path: str) -> str:
        """Return what can be read in the only element of a path."""
        (found,) = self.texts(path)
        return found

    def facts(self) -> dict[str, str]:
        """Return every term of the page's lists of facts with what stands beside it."""
        names, values = self.texts(".//dl/dt"), self.texts(".//dl/dd")
        return dict(zip(names, values, strict=True))


def get(client: FlaskClient, address: str, status: int = 200) -> Parsed:
    """Return the page behind an address."""
    reply = client.get(address)
    assert reply.status_code == status
    assert reply.content_type == "text/html; charset=utf-8"
    return Parsed(reply.get_data(as_text=True))


def post(client: FlaskClient, address: str, status: int = 200, **fields: object) -> Parsed:
    """Return the page that answers a form."""
    reply = client.post(address, data=fields, content_type="multipart/form-data")
    assert reply.status_code == status, reply.get_data(as_text=True)
    return Parsed(reply.get_data(as_text=True))
