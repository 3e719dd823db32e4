"""Reading of rule files, drill files and charts."""
