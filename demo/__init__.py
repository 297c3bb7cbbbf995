"""The river sampler: invented lines and mates for examples. Figures about parts do not belong here."""
