//! Chooses which equations to use, in which order, and says why.
