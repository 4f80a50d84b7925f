"""What a catalog says otherwise than at another time, and why: two states, their differences, and how to tell them."""
