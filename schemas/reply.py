"""What every reply shares: lengths with their limits, ranges, where the figures come from, and the error."""

from schemas.fields import Closed, count_field, number_field, text_field, texts_field, word_field


class Reply(Closed):
    """What stands in every reply."""

    reference = text_field("fingerprint of all reference data that the reply rests on", "1f0c2d3e4b5a6978")


class Limits(Closed):
    """A dimension: its nominal size and, where known, its limits of size and its tolerance class."""

    nominal = number_field("nominal size", 8)
    lower = number_field("lower limit of size, null where none is known", 8.006, nullable=True)
    upper = number_field("upper limit of size, null where none is known", 8.015, nullable=True)
    tolerance_class = text_field("tolerance class of ISO 286, null where the size has none", "m6", nullable=True)


class Thread(Closed):
    """A thread by its designation."""

    designation = text_field("designation by the thread's own standard", "M5")
    pitch = number_field("pitch", 0.8, nullable=True)
    diameter = number_field("basic major diameter", 5)
    system = text_field("thread system: metric, unified, pipe, trapezoidal, tapping, conduit", "metric")
    hand = word_field("direction", ("right", "left"), "right")
    tolerance_class = text_field("tolerance class of the thread", "6H", nullable=True)


class Rating(Closed):
    """A rated quantity with its unit."""

    value = number_field("value, or the lower end of a range", 24)
    unit = text_field("unit", "V")
    upper = number_field("upper end of a range, null where it is none", None, nullable=True)


class Window(Closed):
    """A range of clearance, bore minus shaft; negative is interference."""

    lower = number_field("least clearance", -0.016)
    upper = number_field("greatest clearance", 0.011)


class Problem(Closed):
    """An error, in the form of RFC 9457."""

    type = text_field("address of the explanation", "/docs#bad-value")
    title = text_field("what kind of error it is", "A value is not understood")
    status = count_field("HTTP status", 422)
    detail = text_field("what is wrong with this request", "no tolerance class of ISO 286 is called Q7")
    field = text_field("field at fault, empty where none is", "bore")
    value = text_field("its value as given, shortened to 200 characters", "5 Q7")
    accepted = text_field("what is accepted there", "size and class, or limits")
    example = text_field("a value that is accepted", "5 H7")
    also = texts_field("further faults of the same request, a line each", [])
    request_id = text_field("number of the request, also in X-Request-Id", "9b2f6c1d5e7a4801")


LIMITS, THREAD, RATING, WINDOW, PROBLEM = Limits(), Thread(), Rating(), Window(), Problem()
