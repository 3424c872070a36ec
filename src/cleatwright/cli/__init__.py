"""The command line: parse, call one service, show.

Belongs here: commands, tables, progress bars, exit codes.
Does not belong here: any decision about tools, holders or walls.
"""
