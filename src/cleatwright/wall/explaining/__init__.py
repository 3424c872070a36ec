"""Why something hangs where it hangs, and what would give a place to what hangs nowhere.

Answers are sentences, and each change that is named was tried by arranging once more.
"""
