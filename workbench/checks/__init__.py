"""What there is to look at in a formula: findings as codes and values, never sentences."""
