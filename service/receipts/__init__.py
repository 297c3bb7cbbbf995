"""Receipts: what arrived, held against what the design needs; and which standard part measured values can be.

``check.check`` decides by the rule of ISO 14253-1; ``identify.identify`` searches the tables. ``intake`` turns request
fields into what they take. Pure functions; the arithmetic of measuring stands in ``service.strength.measuring``.
"""
