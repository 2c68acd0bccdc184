"""The stock book: tables, migrations, opening, acts, folded state, queries, verification."""
