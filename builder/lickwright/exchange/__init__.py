"""A piece of music as a file that other programs read: MusicXML, Standard MIDI File, MEI."""
