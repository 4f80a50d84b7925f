// Blocks of the evidence map on any page.
