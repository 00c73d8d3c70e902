"""The Shelf: ingredients, what is known of them, and how they are bought."""
