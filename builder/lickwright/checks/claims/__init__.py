"""What the words of a lesson say about notes: terms found, claims made of them, each held against its notes.

A sentence that carries a link goes through four steps: ``lexer`` finds the trade's words in it,
``attachment`` gives each claim to the link it speaks about, ``pointed`` finds the notes of the link,
and the judge of the claim's kind (in the rule of that name) holds the one against the other.
``ledger`` keeps the outcome for the rules.

Claims come from a link's own words (``phrase``), from words that lean on it (``attachment``, ``tied``,
``moving``), from the sentence as a whole (``statement``); what the rest of a sentence names is looked for
near its links (the rule ``mention``). A claim is held, found to differ, or listed: never guessed.
"""
