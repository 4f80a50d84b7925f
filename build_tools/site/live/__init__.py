"""What stands before a preview's server: pages made when somebody opens them, and what to mend in the place of them."""
