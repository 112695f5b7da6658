//! Documents: one value, written as HTML with MathML or as PDF.
