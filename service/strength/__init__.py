"""What a joint stands: the engineering formulas behind a verdict, as pure functions on plain numbers.

Lengths are millimetres, forces newtons, torques newton metres, stresses MPa, temperatures degrees Celsius. These are
estimates, so floats are used; every result states what it assumed, and figures that can hurt someone carry cautions.
What belongs elsewhere: the figures of materials, heads and friction (``reference``), reading a line
(``service.reading``), whether a part fits its mate (``service.verdict``), anything of the web.

    screws      preload and torque, what limits them       engagement      does the thread hold, blind holes, protrusion
    press_fit   pressure, stress and force of press fits   thermal         fits at another temperature, heating
    chance      shares within limits, spares, dates        stacks          worst case and root sum square
    position    fixed and floating fasteners, patterns     belts           belt paths, centre distance, open belts
    seals       O-rings in their grooves                   keys_and_rings  keys in ways, retaining rings in grooves
    measuring   what a measurement proves                  cautions        what is printed beside such figures
"""
