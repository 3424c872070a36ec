"""Fittings of mounts: small printed parts between a holder and what it hangs on.

Belongs here: the shape of each, from a few measures of the rail.
Does not belong here: where they sit on a holder.
"""
