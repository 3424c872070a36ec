"""What every paper needs: sheets, dimension lines, SVG and PDF, tables, pictures, sheets of words.

Belongs here: tools of drawing.
Does not belong here: anything about a wall or a holder.
"""
