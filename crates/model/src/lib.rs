//! The situation that a question describes: pure data and its soundness rules.
