"""Fulfils the orders of all pages and puts the site in place; row 8.

``proofing`` reads and proofs a course; ``plan`` turns orders into jobs (pure); ``cache`` keeps what has been
made; ``workers`` make the rest in processes of their own; ``publish`` writes the site and swaps it in.
"""
