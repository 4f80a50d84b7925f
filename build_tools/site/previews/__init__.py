"""What a pasted link shows: a title, a sentence and a picture for every page, as Open Graph asks (https://ogp.me).

Pictures are composed from figures, marks and words that pages have anyway: ``canvas`` sets them in few colours, ``lettering`` sets the
words in a font that is shipped, so that they come out the same on every machine. Nothing is drawn while nobody said where the
handbook is published, as the address of a picture must be absolute.
"""
