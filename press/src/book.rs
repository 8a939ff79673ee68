//! The build book: chapters as data, one typesetter behind the feature `book`.

/// The look of the book, as a virtual file for the typesetter: `#import "/style.typ": *`.
pub const STYLE: &str = include_str!("book/style.typ");

#[cfg(feature = "book")]
pub mod typeset;
