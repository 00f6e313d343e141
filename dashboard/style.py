"""The little style that Streamlit's own settings do not reach."""

import streamlit as st

# Less air above the first sentence, words that stand out from what is behind them in both
# schemes, and targets that a wet thumb can hit.
_STYLE = """
<style>
  [data-testid="stMainBlockContainer"] {padding: 2.2rem 1.8rem 2rem 1.8rem;}
  [data-testid="stMainBlockContainer"] h1 {font-size: 1.55rem; padding: 0;}
  [data-testid="stMainBlockContainer"] h2,
  [data-testid="stMainBlockContainer"] h3 {font-size: 1.15rem; padding: .2rem 0 0 0;}
  [data-testid="stMainBlockContainer"] h4 {font-size: 1rem; padding: .2rem 0 0 0;}
  [data-testid="stMainBlockContainer"] [data-testid="stCaptionContainer"] {opacity: .8;}
  button[kind^="primary"]:enabled {color: light-dark(#ffffff, #191b17);}
  [data-testid="stVegaLiteChart"] :is(.role-axis-label, .role-axis-title) text,
  [data-testid="stVegaLiteChart"] .role-legend-label text,
  [data-testid="stVegaLiteChart"] text[fill="#8e9091"] {fill: light-dark(#5f5d56, #b9b6aa);}
  .st-key-answer p {font-size: 1.2rem; line-height: 1.4;}
  [data-testid="stCheckbox"] :is([data-testid="stMarkdownContainer"], p) {white-space: normal;}
  [data-testid="stMarkdownContainer"] table {width: 100%;}
  :is([data-testid="stTable"], [data-testid="stMarkdownContainer"]) :is(td, th) {
    border-width: 0 0 1px; padding: .28rem .4rem; text-align: start; vertical-align: top;
    font-size: .9rem;
  }
  [data-testid="stTable"] .stMarkdownColoredText {color: inherit !important; opacity: .8;}
  .st-key-now strong {font-size: 1.9rem; line-height: 1.3;}
  @media (min-width: 641px) {
    :is([data-testid="stTable"], [data-testid="stMarkdownContainer"]) td {max-width: 20rem;}
    [data-testid="stTable"] .stMarkdownColoredText {display: none;}
    [data-testid="stLayoutWrapper"]:has(> .st-key-ways) {display: none;}
    [data-testid="stSidebar"][data-collapsed="false"] {
      width: 232px !important; min-width: 232px !important;
    }
    [data-testid="stSidebarUserContent"] {padding-left: 0; padding-right: 0;}
  }
  @media (max-width: 640px) {
    [data-testid="stMainBlockContainer"] {padding: 3.4rem 1rem 2rem 1rem;}
    :is([data-testid="stTable"], [data-testid="stMarkdownContainer"]) :is(td, th) {
      padding: .28rem .1rem; font-size: .8rem;
    }
    [data-testid="stTable"] p {font-size: inherit;}
    [data-testid="stTooltipContent"] {min-width: min(16rem, 80vw);}
    [data-testid="stMarkdownContainer"] :is(td, th):not(:last-child) {padding-right: .3rem;}
    [data-testid="stTable"] thead {display: none;}
    [data-testid="stTable"] :is(table, tbody, tr, td) {display: block; width: 100%;}
    [data-testid="stTable"] td {border: 0; padding: .1rem;}
    [data-testid="stTable"] td:not(:first-child, :has(.stMarkdownColoredText)) {display: none;}
    [data-testid="stTable"] td:first-child {font-weight: 600;}
    [data-testid="stTable"] tr {border-bottom: 1px solid #8e909155; padding: .35rem 0;}
    button, summary, [data-testid="stSidebarNav"] a, [data-testid="stPageLink"] a,
    [data-testid="stDateInputField"],
    [data-testid="stMain"] input, [data-testid="stCheckbox"] > label,
    [data-testid="stRadioOption"] {min-height: 44px !important; min-width: 44px !important;}
    [data-testid="stButtonGroup"] [role="radiogroup"] {flex-wrap: wrap; overflow: visible;}
    [data-testid="stButtonGroup"] [role="radio"][aria-checked="false"] {
      border-color: color-mix(in srgb, currentColor 20%, transparent);
    }
    [data-testid="stMain"] :is([data-testid="stTextInputRootElement"],
    [data-testid="stNumberInputContainer"], .react-aria-ComboBox > [role="group"]) {
      height: auto; min-height: 46px;
    }
  }
</style>
"""


def page_style() -> None:
    """Set the style of every page."""
    st.html(_STYLE)
