"""Papers: content as a frozen value first, then PDF bytes."""
