"""From the document to built parts: who shares a holder, of which family, and the part.

Belongs here: recipes, choosing, grouping, describing, building and marking.
Does not belong here: the wall, papers, writing anything.
"""
