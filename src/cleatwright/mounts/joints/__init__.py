"""How a holder meets a carrier: in one piece, by a dovetail, by bolts.

Belongs here: both sides of one joint.
Does not belong here: what hangs the carrier.
"""
