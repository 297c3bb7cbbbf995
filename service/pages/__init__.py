"""What people see in a browser: templates and the style sheet of every page, and what a page shows of a reply. Pure.

Replies come in as they go over the wire. Which address shows which page is not known here (``service.api``). Every page
works without scripts, names its parts for screen readers, and prints.
"""
