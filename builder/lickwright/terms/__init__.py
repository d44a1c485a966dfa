"""The trade's words as tables: read by the prose rules, spoken by the text for listeners."""
