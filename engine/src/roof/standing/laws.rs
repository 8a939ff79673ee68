//! Laws of a ring that stands.
