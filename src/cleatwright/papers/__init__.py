"""What a person or a program reads: drawings, lists, the report.

Belongs here: plain values in, bytes out, always the same for the same values.
Does not belong here: kernels, decisions about holders, writing to disk.
"""
