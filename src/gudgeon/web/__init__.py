"""The pages: answers to HTML, forms to entries. Nothing is worked out here."""
