"""All that is told of results, and nothing is worked out here.

`findings` is what one run found. `sentences` words it, `figures` draws it; `page`, `terminal` and
`json` hand both out. A number, a limit or a choice that is not in the findings does not belong
here, and no other room makes a sentence about a result.
"""
