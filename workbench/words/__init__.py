"""Sentences for the maker: message id and values in, text out."""
