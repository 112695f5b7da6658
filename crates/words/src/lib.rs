//! Reads exam English into a situation, and accounts for every word.
