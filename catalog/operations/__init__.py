"""The verbs: everything that changes the record, one function for each act.

Each operation checks the rules, writes in one transaction, and leaves a history entry that
says who and why. What it refuses, it refuses with ``ValidationError`` in plain words.
"""
