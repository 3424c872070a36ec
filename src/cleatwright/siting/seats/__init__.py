"""Seats on rails that are kept free for tools to come: how large, where, and what the ledger keeps.

What belongs here: the seats of one panel. Where they find room is the search's, and ``wall/adding``
knows which of them may stay beside what hangs.
"""
