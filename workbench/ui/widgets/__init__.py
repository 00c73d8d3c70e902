"""Small painted things and widgets that several places use."""
