"""What the joint angles of an exercise make of the body: segments in space, in each view."""
