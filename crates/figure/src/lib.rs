//! Draws a situation and its force diagrams as SVG.
