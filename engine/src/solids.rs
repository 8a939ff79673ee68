//! Goes round the house and makes the body of every part: closed, named by its path, with material, lift and day.

use crate::solid::Mesh;
use crate::units::{Days, Volume};

/// The body of one part.
#[derive(Clone, Debug)]
pub struct Solid {
    /// Its path, the same as in rows and drawings.
    pub path: String,
    /// What it is called.
    pub name: String,
    /// What it is made of.
    pub material: &'static str,
    /// The lift that it belongs to, or that holds it.
    pub lift: Option<String>,
    /// Days after the start of the first lift on which it is there.
    pub day: Option<Days>,
    /// Its volume as the rows say.
    pub volume: Volume,
    /// Its surface, triangulated.
    pub mesh: Mesh,
}
