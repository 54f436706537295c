"""All that is told, as page, terminal and JSON: the findings of a run, sentences, tables, figures.

Every sentence that a user reads about a result is made here, once, from numbers and causes. Nothing
is worked out here, and nothing is drawn for printing.
"""
