"""What the picking hand can do, and what it says it does."""
