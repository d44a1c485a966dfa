"""From text to the model: the manifest, the lessons, the blocks of music. Never raises at an author."""
