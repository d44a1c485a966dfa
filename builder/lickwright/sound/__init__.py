"""The guitar, made from numbers: a performance in, samples out.

Each string is a sum of decaying partials (``string``), so pitch and decay are free functions of time: a
bend bends, a slide is heard fret by fret, and a string rings until it is used again. Mono, 44,100 samples
a second. No value here has been fitted to a recording yet.

    performance -> life -> pitch, excitation, decay -> string, partials -> chain -> limit -> encode
"""
