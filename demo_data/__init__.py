"""Invented households to try the planner on."""
