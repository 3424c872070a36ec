"""The rows that the browser shows: plain values with their units, made of what was computed.

Their schema is that of the interface, from which the types of the front end are generated.
"""
