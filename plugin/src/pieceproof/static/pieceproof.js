// Remembers what the reader chose and ticked on a pattern's page, and keeps the choice in the
// address. Choosing itself works without this script.
