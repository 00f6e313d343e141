"""Questions to a plan: what if, what one more would bring, what to do with a glut."""
