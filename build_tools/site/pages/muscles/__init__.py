"""Pages of muscles and of their parts: the answer first, then the pairs it rests on, anatomy last."""
