"""reading"""
