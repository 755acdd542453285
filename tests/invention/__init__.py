"""The program that invented the demo, and that makes libraries of any size for speed tests."""
