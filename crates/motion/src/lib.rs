//! From a situation to its pool of equations, its cases and its values.
