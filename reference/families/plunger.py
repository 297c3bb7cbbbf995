"""Spring plungers and indexing plungers: named by their outside thread.

Source: common practice.
"""

from reference.families.base import Example, Family, Layout, phrases

FAMILY = Family(
    name="plunger",
    size_names="external thread",
    key="thread",
    nouns={
        "en": phrases(
            "plunger, spring plunger, ball plunger, index plunger, indexing plunger, ball spring plunger, spring"
            " loaded plunger,"
            " spring ball plunger, retractable plunger, grub plunger, index pin, indexing pin, ball catch screw"
        ),
        "de": phrases("Druckstück, federndes Druckstück, Rastbolzen, Kugeldruckstück, Arretierbolzen, Federdruckstück"),
        "fr": phrases("poussoir à ressort, poussoir à bille, doigt d'indexage, vis à bille, vis de pression à ressort"),
        "es": phrases(
            "posicionador de muelle, posicionador de bola, pulsador de muelle, émbolo de resorte, perno de indexado"
        ),
        "it": phrases(
            "pressore a molla, pressore a sfera, pistoncino a molla, pistoncino, spinotto a molla, pressori a molla"
        ),
    },
    thread="thread",
    layouts=(Layout(("length",)),),
    labels={"diameter": "outer_diameter"},
    needs=("thread",),
    identity=("thread",),
    order="Spring plunger {thread}",
    question="Which thread has the plunger?",
    unless=frozenset({"toilet", "sink", "syringe", "drain", "coffee", "router"}),
    examples=(
        Example("spring plunger M8", dimensions={"thread": "M8"}, size_names="external thread"),
        Example("federndes Druckstück M5x12", dimensions={"thread": "M5", "length": "12"}),
        Example("ball plunger M4 stainless, 10 pcs", dimensions={"thread": "M4"}),
        Example("spring plunger", state="ambiguous"),
    ),
)
