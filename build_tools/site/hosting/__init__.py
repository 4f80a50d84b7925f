"""Where a built site stands and how it is served: what browsers may do on its pages, and how it gets into its folder."""
