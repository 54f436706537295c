"""Truth: floats and arrays in, floats and arrays out; numpy and scipy only."""
