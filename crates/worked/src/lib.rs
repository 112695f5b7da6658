//! One question in, everything that the core makes of it out.
