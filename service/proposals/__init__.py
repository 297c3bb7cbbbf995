"""What should be ordered for this mate: standard parts that are known to go with it, ranked, with substitutes.

Candidates come from the families' tables; each is read again from its own order text and judged like any line, so that
nothing is proposed that would not be passed. What does not belong here: judging (``service.verdict``), the web.

    designation  a row of a table as the text to order          candidates  which parts to try for a kind of mate
    propose      try them, rank them, name what stands for them
"""
