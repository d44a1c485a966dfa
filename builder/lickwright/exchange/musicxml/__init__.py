"""MusicXML 4.0 (W3C Community Group Final Report, 2021): one part, staff and tab."""
