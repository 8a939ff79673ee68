//! The form of a long computation: pieces that need not know of each other, told of as they go on, given up when nobody wants
//! them any more, and joined in their order, so that it does not matter who did which.

use std::fmt::{self, Debug, Write};
use std::ops::{ControlFlow, Range};

use serde_json::Value;

/// How far a range of pieces has come, in steps of its own; a budget counts steps, never time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// Steps done.
    pub done: usize,
    /// Steps in all.
    pub of: usize,
}

/// Is told how far a range has come, at least every 50 ms, and says whether to go on.
pub type Told<'t> = dyn FnMut(Progress) -> ControlFlow<()> + 't;

/// A long computation with all that it needs.
pub trait Study {
    /// What a range of pieces finds.
    type Part;
    /// What all of them find together.
    type Found;

    /// Into how many pieces it can be divided.
    fn pieces(&self) -> usize;

    /// Computes a range of pieces; `None` when it was told to stop.
    fn part(&self, range: Range<usize>, told: &mut Told<'_>) -> Option<Self::Part>;

    /// Joins what the ranges found, in their order.
    fn join(&self, parts: Vec<Self::Part>) -> Self::Found;

    /// Names its inputs: the same inputs, the same digest.
    fn digest(&self) -> Digest;

    /// What was found, to be kept.
    fn kept(found: &Self::Found) -> Value;

    /// What was kept; `None` where it is not of this study.
    fn read(&self, kept: &Value) -> Option<Self::Found>;
}

/// A study done at once, piece after piece.
pub fn whole<S: Study>(study: &S) -> Option<S::Found> {
    let part = study.part(0..study.pieces(), &mut |_| ControlFlow::Continue(()))?;
    Some(study.join(vec![part]))
}

/// A digest of inputs: FNV-1a, 128 bits (Fowler, Noll and Vo 1991, constants from memory).
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Digest(u128);

impl Digest {
    /// Of everything that the inputs say of themselves, and of the number of the method, which grows when its answers change.
    #[must_use]
    pub fn of(method: u32, inputs: &impl Debug) -> Digest {
        let mut digest = Digest(0x6c62_272e_07bb_0142_62b8_2175_6295_c58d);
        // Writing to a digest cannot fail.
        let _ = write!(digest, "{method} {inputs:?}");
        digest
    }
}

impl Write for Digest {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        for byte in text.bytes() {
            self.0 = (self.0 ^ u128::from(byte)).wrapping_mul(0x0000_0000_0100_0000_0000_0000_0000_013b);
        }
        Ok(())
    }
}

impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:032x}", self.0)
    }
}

impl Debug for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_digest_is_the_published_one_and_moves_with_the_last_digit() {
        // FNV-1a of 128 bits of the empty text is its basis; of "a" d228cb696f1a8caf78912b704e4a8964 (test vector, from memory).
        let mut one = Digest(0x6c62_272e_07bb_0142_62b8_2175_6295_c58d);
        assert_eq!(one.to_string(), "6c62272e07bb014262b821756295c58d");
        one.write_str("a").unwrap();
        assert_eq!(one.to_string(), "d228cb696f1a8caf78912b704e4a8964");
        let of = |value: f64| Digest::of(1, &[value]);
        assert_eq!(of(0.1), of(0.1));
        assert_ne!(of(0.1), of(0.1 + f64::EPSILON));
        assert_ne!(Digest::of(1, &"same"), Digest::of(2, &"same"));
    }
}
