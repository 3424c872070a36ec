"""Tool kinds: what a tool is, one file each.

Belongs here: a kind's measures with bounds, its envelope, mass estimate and grips.
Does not belong here: how it is held, where it hangs, how a document spells it.
"""
