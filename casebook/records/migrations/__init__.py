"""How a book came to be what it is: one file a revision, each written once and never changed."""
