"""The evidence map as it is drawn: marks, strips of one exercise, blocks of one muscle, the whole."""
