"""The cautions that go beside figures for tightening, pressing, heating, load, magnets, belts and chance.

General knowledge of the trade in our own words; the parts that are figures name their source where they are used.
"""

GENERAL = (
    "Guidance for light machinery, worked out from the figures stated here; the part maker's data and local codes go "
    "before it. Lifting gear, vehicles, pressure equipment, guards, medical use, overhead loads and anything whose "
    "failure can hurt someone are not decided here: have them calculated by a qualified person."
)
TORQUE = (
    "An upper limit for clean threads at the friction stated. Grease, wax or a coated nut can halve the torque that "
    "the thread stands: if anything slippery is used, reckon with the lower friction."
)
TORQUE_SCATTER = (
    "A torque wrench good to 4 % still leaves the clamping force uncertain by 25 to 30 %; by feel, by 35 %."
)
BRITTLE_SCREW = (
    "Class 12.9 is brittle: not zinc plated, not for shock or wet use without thought; it can snap without warning, "
    "hours after tightening."
)
STAINLESS = "Stainless in stainless seizes: use paste, turn slowly and by hand, never with a power driver."
REDUCED_HEAD = (
    "This head carries only a part of the thread's load. Not for lifting, guards that protect people, wheels or brakes."
)
SOFT_THREAD = (
    "The tapped thread is the weak part and strips without warning. Check the engagement first, use a torque driver, "
    "and do not retighten by feel."
)
PLASTIC_THREAD = (
    "No torque figure for a thread in plastic is safe without a trial: drive test screws until the thread fails and "
    "assemble at 70 % of the mean failing torque."
)
SMALL_SCREW = (
    "A hand breaks a screw of this size: use a torque driver, or two fingers on the short arm of the key. "
    "Broken heads fly: wear eye protection."
)
SOFT_SOCKET = "A worn key or a soft stainless socket rounds before the screw gives."
BLIND_HOLE = "Oil or threadlocker in a blind hole is trapped by the screw and can burst the part."
PRESS = (
    "The real press force can be several times the estimate. Hardened pins, magnets and bearing rings shatter: wear "
    "eye protection, stand clear behind a guard, press on the ring that is being fitted, never hammer a hardened pin."
)
HEAT = (
    "Parts above 60 degC burn skin. Aluminium tempers soften above about 150 degC, bearings with grease or cages "
    "should stay below 120 degC. Dry ice and liquid nitrogen freeze flesh and displace the air of a room."
)
MAGNET = (
    "Magnets pinch fingers, splinter, wipe cards and must stay away from pacemakers. Never press them without a "
    "sleeve, never saw them, keep them below 80 degC."
)
BELT = "A belt of the wrong pitch seems to mesh by hand and jumps under load; on a vertical axis the load then drops."
CHANCE = (
    "An estimate from the distributions assumed here, not a promise. Bought parts are often off centre, and parts from "
    "one batch or one supplier go wrong together."
)
