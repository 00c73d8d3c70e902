"""Acids, bases, preservatives, emulsions and densities: numbers in, numbers out."""
