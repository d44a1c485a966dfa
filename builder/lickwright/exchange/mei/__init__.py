"""MEI 5.1 (Music Encoding Initiative), the CMN customization: a staff and a tab."""
