"""Results turned into descriptions of pages: text, tables, drawings. Touches no file and knows no template."""
