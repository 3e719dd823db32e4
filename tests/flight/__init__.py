"""flight"""
