"""What the hands do, when: a lick's timeline as events in seconds, semitones and cents."""
