"""Print files: checked meshes, their pose on the bed, batches, 3MF and STL.

Belongs here: everything between an evaluated body and the file that is printed.
Does not belong here: how a part is built, timber, the ledger.
"""
