"""Jobs: long uploads worked in the background, a chunk of rows at a time.

    queue.py       the queue in the database in use (huey), who works it, and what became of a chunk whose worker died

What does not belong here: HTTP and how a row is judged (``service.api``), SQL (``service.store``).
"""
