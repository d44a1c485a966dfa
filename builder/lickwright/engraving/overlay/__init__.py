"""The signs of the guitar, one family a file: each plans its signs and draws them.

A family has ``plan(score, plan)`` and ``DRAWN``, from the kind of a sign to the function that draws
it. To add a sign: plan it, draw it, and name its family in ``families``.
"""
