"""The course as a whole: its files, its names, its promises."""
