"""Sheets of paper, as PDF, made of tables and words; they know no Streamlit."""
