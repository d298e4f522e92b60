"""The MkDocs side: one plugin, one page template, the content security policy."""
