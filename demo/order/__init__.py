"""An order for the rebuild of the river sampler, as JSON and as sheets, with traps in it.

    order.json     needs, lines of the suppliers A, B and C, stock, steps, and what is known besides
    needs.csv lines.csv stock.csv steps.csv    the same as spreadsheets save it, in three languages
    options.json   what stands in no sheet

``python -m demo.order`` prints what is found; ``tests/demo/test_order.py`` names every trap.
"""
