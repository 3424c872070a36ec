"""The rails of a panel: studs, screws, loads, which of them stay, and answers about them.

Belongs here: everything about rails that several questions need.
Does not belong here: drawings.
"""
