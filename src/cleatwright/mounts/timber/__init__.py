"""Carriers of wood.

Belongs here: board, grooves, holes and strips, by mount and by joint.
Does not belong here: how they are sawn (see `timber`).
"""
