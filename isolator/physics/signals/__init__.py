"""Signals: spectra, bands, decays and levels of sampled vibration. Arrays in, arrays out."""
