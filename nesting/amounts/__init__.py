"""Weights, mix, rubber, costs and cautions."""
