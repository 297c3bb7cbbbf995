"""The wire of ``/v1/jobs``: long uploads that are worked in the background."""

from schemas.fields import count_field, text_field, word_field
from schemas.options import LengthOptions, ViewOptions
from schemas.reply import Reply
from schemas.stored_orders import ID, MOMENT
from schemas.verdict import VERDICTS

STATES = ("receiving", "waiting", "running", "done", "deleted")


class JobReply(Reply):
    """A job and how far it is."""

    id = text_field("id of the job", ID)
    state = word_field("receiving, waiting, running, done; deleted in the reply to DELETE", STATES, "running")
    rows_done = count_field("rows that are judged", 2500)
    rows_total = count_field("all rows, null while they are still received", 10000, nullable=True)
    verdict = word_field("worst verdict so far, null before the first", VERDICTS, "ask", nullable=True)
    made_at = text_field("when the upload began, ISO 8601", MOMENT)
    address = text_field("where the job is watched, and deleted", f"/v1/jobs/{ID}")
    result = text_field("where its rows are once it is done, null before", f"/v1/jobs/{ID}/result", nullable=True)


JOB_QUERY, NEW_JOB_QUERY, JOB = ViewOptions(), LengthOptions(), JobReply()
