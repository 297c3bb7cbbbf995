"""The wire of ``/v1/jobs``: long uploads that are worked in the background."""

from marshmallow import fields, validate

from schemas.fields import Closed, Flag, Text, Word, about, count_field, list_field, one_field, text_field, word_field
from schemas.options import LengthOptions, ViewOptions
from schemas.reply import Reply
from schemas.stored_orders import ID, MOMENT, MOST
from schemas.verdict import LONGEST_TEXT, VERDICTS

STATES = ("receiving", "waiting", "running", "done", "cancelled")

FIRST = 10
"""So many rows that do not fit are shown with a job."""

SECONDS = (2, 600)
"""How often a page may load itself anew."""


# --- requests --------------------------------------------------------------------------------------------------------


_FILE = about("file that the lines come from: lists and reports name it", "order.csv")


class NewJobQuery(LengthOptions):
    """How the rows of a job are to look, and which file they come from."""

    file = Text(longest=LONGEST_TEXT, metadata=_FILE)


class JobsQuery(ViewOptions):
    """Which jobs are listed."""

    state = Word(STATES, metadata=about("only jobs in this state", "running", ", ".join(STATES)))
    limit = fields.Integer(
        validate=validate.Range(1, MOST), metadata=about("most jobs in the reply", 100, f"1 to {MOST}")
    )
    after = Text(longest=len(ID), metadata=about("id of the job behind which the list goes on", ID))


class WatchQuery(ViewOptions):
    """How a job is watched in a browser."""

    refresh = fields.Integer(
        validate=validate.Range(*SECONDS),
        metadata=about(
            "have a browser load the page anew after so many seconds, until the job is done or cancelled",
            10,
            f"{SECONDS[0]} to {SECONDS[1]}",
        ),
    )
    asked = Word(("cancel",), metadata=about("what was asked for: the page says what became of it", "cancel"))


class ResultQuery(ViewOptions):
    """How the rows of a job are to look, and what the status is to say."""

    gate = Flag(metadata=about("answer 409 unless every row is judged and fits", "1", "1 or 0"))
    file = Text(
        longest=LONGEST_TEXT,
        metadata=about("file that reports name; that of the job where none is given", "order.csv"),
    )


# --- replies ---------------------------------------------------------------------------------------------------------


class Counts(Closed):
    """How many rows have which verdict so far."""

    fits = count_field("rows that fit", 2300)
    marginal = count_field("rows that are marginal", 40)
    ask = count_field("rows where something has to be asked", 120)
    wrong = count_field("rows that are wrong", 30)
    unread = count_field("rows that cannot be read", 10)


class Job(Closed):
    """A job and how far it is."""

    id = text_field("id of the job", ID)
    file = text_field("file that its lines come from, null where its sender did not say", "order.csv", nullable=True)
    state = word_field(f"{', '.join(STATES)}; deleted in the reply to DELETE", (*STATES, "deleted"), "running")
    rows_done = count_field("rows that are judged", 2500)
    rows_total = count_field(
        "all rows; null while they are still received, and where the job was cancelled then", 10000, nullable=True
    )
    verdict = word_field("worst verdict so far, null before the first", VERDICTS, "ask", nullable=True)
    verdicts = one_field(Counts(), "how many rows have which verdict so far")
    made_at = text_field("when the upload began, ISO 8601", MOMENT)
    started_at = text_field("when the first rows were begun, null before", MOMENT, nullable=True)
    finished_at = text_field("when it was done, or cancelled; null before", MOMENT, nullable=True)
    kept_until = text_field("when it is removed with its result, null before it is finished", MOMENT, nullable=True)
    address = text_field("where the job is watched, and deleted", f"/v1/jobs/{ID}")
    result = text_field(
        "where its rows are once it is done, or those that were judged before it was cancelled; null before",
        f"/v1/jobs/{ID}/result",
        nullable=True,
    )


class NotFitting(Closed):
    """A row that does not fit."""

    number = count_field("number of its line in the body", 5)
    verdict = word_field("its verdict", VERDICTS, "ask")
    line = text_field("the purchase line, null where there is none that can be read", "M5 dowel pin", nullable=True)
    reason = text_field("why, in one text", "the readings disagree")
    order_text = text_field("what to order instead, empty where that is not known", "Parallel pin ISO 8734 - 5 x 20")
    question = text_field("what to ask the supplier, null where nothing is", "Which is it?", nullable=True)


class JobReply(Job, Reply):
    """A job, how far it is, and once it is finished the first rows that do not fit."""

    first_not_fits = list_field(
        NotFitting(), f"the first {FIRST} rows that do not fit, once the job is done or cancelled"
    )


class JobsReply(Reply):
    """Jobs, the newest first."""

    jobs = list_field(Job(), "the jobs")
    next = text_field("id to go on after, null where there are no more", ID, nullable=True)


JOB_QUERY, NEW_JOB_QUERY, JOB = ViewOptions(), NewJobQuery(), JobReply()
JOBS_QUERY, WATCH_QUERY, RESULT_QUERY, JOBS = JobsQuery(), WatchQuery(), ResultQuery(), JobsReply()
