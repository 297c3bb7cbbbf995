"""The page of a job: how far it is, loaded anew until it is done."""

from collections.abc import Mapping
from typing import Any

from service.pages.lines import Forms
from service.pages.site import page


def job_page(reply: Mapping[str, Any], table: str, query: str, forms: Forms) -> str:
    """Return the page of a job."""
    return page("job.html", title=f"Job: {reply['state']}", job=reply, forms=forms, reference=reply["reference"])
