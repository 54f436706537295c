"""Rigid bodies on supports: modes, response, rest under weight, reversals, and the desk as a
receiver. What a pad is made of belongs to `rubber`.
"""
