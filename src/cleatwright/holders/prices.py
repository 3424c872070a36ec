"""What speaks against a family, in grams of plastic for each tool: every price with its reason.

All are choices, and stand here alone. A gram of plastic is the measure, since that is what most
holders differ in; the rest is what somebody would print more of to avoid it.
"""

from __future__ import annotations

from cleatwright.base.source import Evidence, Source
from cleatwright.standards.table import Listed

SUPPORT_G = 15.0
SUPPORT = Source(
    "support to print",
    "it is thrown away, cut off by hand, and leaves a rough face; common practice, no source",
    Evidence.PRACTICE,
)
WIDTH_G_PER_MM = 0.1
WIDTH = Source(
    "width on the rail",
    "100 mm of a rail with its screws cost about as much as 10 g of filament; common practice, "
    "no source",
    Evidence.PRACTICE,
)
REACH_G_PER_MM = 0.1
REACH = Source(
    "reach out from the wall",
    "heads and elbows meet it, and its lever loads rails and screws; a choice",
    Evidence.CHOICE,
)
HOLD_G = 10.0
HOLD = Source(
    "pull to unhook",
    "what comes off at just the pull that was asked for, against what never does; a choice",
    Evidence.CHOICE,
)
BARE_EDGE_G = 100.0
BARE_EDGE = Source(
    "bare edge", "a cut costs more than any plastic that a guard takes; a choice", Evidence.CHOICE
)
NOT_KEPT_G = 25.0
NOT_KEPT = Source("not kept", "what is knocked out falls and breaks; a choice", Evidence.CHOICE)
PULLED_G = 3.0
PULLED = Source(
    "pulled off springs or magnets",
    "it takes a tug each time, and springs tire; common practice, no source",
    Evidence.PRACTICE,
)
BOUGHT_G = 20.0
BOUGHT = Source(
    "something to buy", "it must be had before the holder can be used; a choice", Evidence.CHOICE
)
VALUES = (
    Listed("Families", "support to print g", SUPPORT_G, SUPPORT),
    Listed("Families", "width on the rail g/mm", WIDTH_G_PER_MM, WIDTH),
    Listed("Families", "reach out from the wall g/mm", REACH_G_PER_MM, REACH),
    Listed("Families", "pull to unhook g", HOLD_G, HOLD),
    Listed("Families", "bare edge g", BARE_EDGE_G, BARE_EDGE),
    Listed("Families", "not kept g", NOT_KEPT_G, NOT_KEPT),
    Listed("Families", "pulled off springs or magnets g", PULLED_G, PULLED),
    Listed("Families", "something to buy g", BOUGHT_G, BOUGHT),
)
