"""Charts: a tidy table in, an Altair chart out; no Streamlit and no sums."""
