"""``/v1/proposals``: what should be ordered for this mate?"""

from collections.abc import Iterator

from flask import Blueprint

from schemas.options import LengthOptions
from schemas.proposals import PROPOSALS, WANTED
from service.api import wire
from service.api.query import not_understood
from service.api.render import Layout, Row, Wire
from service.api.resource import Answer, Resource, resource, with_reference
from service.cells import cell_text
from service.proposals.model import Proposal, Proposals
from service.proposals.propose import propose
from service.proposals.wanted import parse_wanted
from service.verdict.model import CheckError

blueprint = Blueprint("proposals", __name__)

COLUMNS = (
    "rank",
    "order_text",
    "family",
    "standards",
    "rare",
    "why",
    "missing",
    "substitutes",
    "mate",
    "fit",
    "source",
    "cautions",
    "reason",
    "units",
    "reference",
    "error",
)


def reply_of(found: Proposals, units: str) -> Wire:
    """Return the answer as it goes over the wire."""
    return {
        "mate": wire.mate(found.wanted.mate, units),
        "fit": wire.fit(found.fit, units),
        "proposals": [_proposal(one, units) for one in found.proposals],
        "tried": found.tried,
        "reason": found.reason,
    }


def _proposal(one: Proposal, units: str) -> Wire:
    return {
        "order_text": one.order_text,
        "standards": list(one.standards),
        "family": one.family,
        "why": one.why,
        "rare": one.rare,
        "missing": list(one.missing),
        "share": None if one.share is None else wire.number(one.share),
        "dimensions": {name: wire.dimension(name, size, units) for name, size in one.reading.dimensions.items()},
        "substitutes": [
            {"order_text": other.order_text, "standards": list(other.standards), "differs": list(other.differs)}
            for other in one.substitutes
        ],
        "source": one.source,
        "cautions": list(one.cautions),
    }


def _substitutes(proposal: Wire) -> str:
    """Return the substitutes of a proposal in one text, each with what differs in brackets."""
    texts = [
        other["order_text"] + (f" ({cell_text(other['differs'])})" if other["differs"] else "")
        for other in proposal["substitutes"]
    ]
    return cell_text(texts)


def _rows(reply: Wire) -> Iterator[Row]:
    """Yield a row per proposal, or one with the reason why there is none."""
    told = (reply["mate"]["text"], reply["fit"] and reply["fit"]["wanted"])
    end = (reply["units"], reply["reference"], None)
    for rank, one in enumerate(reply["proposals"], start=1):
        yield [
            rank,
            one["order_text"],
            one["family"],
            cell_text(one["standards"]),
            one["rare"],
            one["why"],
            cell_text(one["missing"]),
            _substitutes(one),
            *told,
            one["source"],
            cell_text(one["cautions"]),
            None,
            *end,
        ]
    if not reply["proposals"]:
        yield [None] * 8 + [*told, None, None, reply["reason"], *end]


def _word(reply: Wire) -> str:
    return str(reply["proposals"][0]["order_text"]) if reply["proposals"] else ""


LAYOUT = Layout("proposals", COLUMNS, _rows, _word, single=False)


@resource(
    blueprint,
    Resource(
        "/v1/proposals",
        "What should be ordered for a mate",
        LengthOptions(),
        PROPOSALS,
        LAYOUT,
        method="POST",
        body=WANTED,
        body_types=("application/json",),
        description="A mate and a fit as a check has them, and where it matters family, length and material. "
        "Standard parts that are judged to fit for every part within limits come out, ranked, with why each, what is "
        "rare, and what may stand in its place. The plain word is the first order text.",
    ),
)
def proposals(query: Wire, body: Wire) -> Answer:
    """Answer what a part is wanted for."""
    try:
        wanted = parse_wanted(body)
    except CheckError as error:
        raise not_understood(error) from None
    units = query.get("units", "mm")
    return Answer(with_reference(reply_of(propose(wanted), units), units))
