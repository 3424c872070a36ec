"""The browser as a reader of the project: an application on this computer, for one person.

Routes take what a person did and give rows; what is right, and what can be held, hung and made, is
asked of the rooms below. Here is no logic of the workshop, and no sentence about it.
"""
