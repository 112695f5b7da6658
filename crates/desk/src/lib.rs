//! The desk: a web page on the teacher's own machine.
