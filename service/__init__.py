"""The service: reading lines, judging mates, and the HTTP layer that translates between them and callers.

    service.api  ->  service.verdict  ->  service.reading  ->  reference
    service.api  ->  schemas

``reading`` and ``verdict`` are pure functions on plain typed values; only ``api``, ``app`` and ``wsgi`` know HTTP.
"""
